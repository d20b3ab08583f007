"""Rewriting in other units: every figure of the format, in a whole file, to the same value."""

from __future__ import annotations

from pathlib import Path

import pytest

import rigmint
from rigmint.library.faults import FaultList
from rigmint.library.yaml import parse_yaml
from rigmint.rig.quantity import SAMPLES, parse_quantity, parse_range
from rigmint.testing import find_corpus
from rigmint.testing.other_units import rewrite_quantity, rewrite_units
from rigmint.testing.shelves import read_shelf

ONE_UNIT = {"area", "decibel", "diametral_pitch", "gauge", "radio_power", "ratio"}


@pytest.mark.parametrize("kind", SAMPLES)
def test_every_kind_of_quantity_keeps_its_value(kind: str) -> None:
    sample = SAMPLES[kind]
    other = rewrite_quantity(sample)

    assert (other is None) == (kind in ONE_UNIT)
    if other is not None:
        assert other.rpartition(" ")[2] != sample.rpartition(" ")[2]
        assert parse_quantity(other, kind) == pytest.approx(parse_quantity(sample, kind), rel=1e-11)


@pytest.mark.parametrize("text", ["11 to 17 V", "11 V to 17 V", "-0.3 to 18 V", "9000 mV to 17 V", "-4.5 to -1 mV"])
def test_ranges_keep_theirs(text: str) -> None:
    other = rewrite_quantity(text)

    assert other is not None
    assert parse_range(other, "voltage") == pytest.approx(parse_range(text, "voltage"), rel=1e-11)


@pytest.mark.parametrize("text", ["5 ft to 6 V", "Saltmarsh", "12:30", "1080p25", "2 h by car", "98", "20 AWG"])
def test_what_is_no_quantity_is_left(text: str) -> None:
    assert rewrite_quantity(text) is None


def test_texts_keys_and_comments_are_left() -> None:
    text = "says: 24 V\nset: {limit: 5 A}\nlength: 45 cm  # about 45 cm\nworks: '11 to 17 V'\n45 cm: [1 h]\n"

    assert rewrite_units(text, "a.part.yaml") == (
        "says: 24 V\nset: {limit: 5 A}\nlength: 17.7165354331 in  # about 45 cm\nworks: 11000 to 17000 mV\n45 cm: [3600 s]\n"
    )


def test_rigs_and_catalogue_are_rewritten_in_earnest() -> None:
    catalogue = Path(rigmint.__file__).parent / "catalogue"
    files = [*find_corpus().root.glob("rigs/*.yaml"), *catalogue.glob("*.part.yaml")]
    texts = [path.read_text(encoding="utf-8") for path in files]
    changed = [rewrite_units(text, "a.yaml") for text in texts]
    lines = [pair for old, new in zip(texts, changed, strict=True) for pair in zip(old.splitlines(), new.splitlines(), strict=True)]  # fmt: skip

    assert sum(old != new for old, new in lines) > 300
    assert all(parse_yaml(text, "a.yaml", FaultList()) is not None for text in changed)


def test_the_corpus_holds_sound_rigs_and_one_for_each_fault() -> None:
    rigs = read_shelf(find_corpus()).rigs

    assert sum(name.startswith("rigs/") for name in rigs) >= 9
    assert sum(name.startswith("faults/") for name in rigs) >= 70
