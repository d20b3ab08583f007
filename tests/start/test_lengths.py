"""Lengths as a table of leads writes them."""

from __future__ import annotations

import pytest

from rigmint.start.lengths import read_length


@pytest.mark.parametrize(
    ("text", "unit", "written", "metres"),
    [
        ("40 cm", None, "40 cm", 0.4),
        ("1,5 m", None, "1.5 m", 1.5),
        ("2m", None, "2 m", 2.0),
        ("6ft.", None, "6 ft", 1.8288),
        ("6'", None, "6 ft", 1.8288),
        ('18"', None, "18 in", 0.4572),
        ("5' 6\"", None, "66 in", 1.6764),
        ("5 feet 6 inches", None, "66 in", 1.6764),
        ("3 metres", None, "3 m", 3.0),
        ("2,5", "ft", "2.5 ft", 0.762),
        ("2 m", "ft", "2 m", 2.0),
    ],
)
def test_lengths_are_read(text: str, unit: str | None, written: str, metres: float) -> None:
    found = read_length(text, unit)

    assert found is not None
    assert found[0] == written
    assert found[1] == pytest.approx(metres)


@pytest.mark.parametrize(
    "text", ["2", "-3 m", "0 m", "2 kg", "2 m m", "m", "1e400 m", "1.2.3 m", "1,200 mm", "6 in 5 ft", ""]
)
def test_what_is_no_length_is_none(text: str) -> None:
    assert read_length(text, None) is None
