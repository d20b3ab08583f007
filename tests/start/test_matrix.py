"""Whatever is answered: a rig that checks without an error, or a sentence that says why not.

`RIGMINT_START_SAMPLE` asks for more rigs than the 100 of a usual run: 5000 take about ten minutes.
"""

from __future__ import annotations

import datetime
import os
from collections import Counter
from pathlib import Path

import pytest

from rigmint.library.library_file import Library, load_library
from rigmint.lint.results import FileReport
from rigmint.lint.run import check_paths
from rigmint.start.answers import CAMERAS, HEADS, LENS_CONTROLS, PLACES, POWERS, RECORDERS, VIEWERS, Refusal
from rigmint.start.draft_rig import draft_rig
from rigmint.start.spares import count_spares
from rigmint.start.write_rig import write_rig
from rigmint.words import Grade

from .matrix import Sampled, sample

COUNT = int(os.environ.get("RIGMINT_START_SAMPLE", "100"))
SEED = int(os.environ.get("RIGMINT_START_SEED", "2026"))
MOST_THIN = 5
MOST_TIDY = 3
SHORTEST_TO_GROUND = 1.5
"""m: from a table or the floor to a camera."""


@pytest.fixture(scope="module")
def library() -> Library:
    """The installed catalogue."""
    return load_library(None)


@pytest.fixture(scope="module")
def drawn(library: Library) -> list[Sampled | Refusal]:
    """The sample."""
    return list(sample(COUNT, SEED, library.catalogue))


@pytest.fixture(scope="module")
def reports(
    drawn: list[Sampled | Refusal], library: Library, tmp_path_factory: pytest.TempPathFactory
) -> list[tuple[Sampled, FileReport]]:
    """Each rig of the sample with the packs of its day, checked."""
    folder = tmp_path_factory.mktemp("sample")
    rigs = [one for one in drawn if isinstance(one, Sampled)]
    for number, one in enumerate(rigs):
        draft = draft_rig(one.answers, library.catalogue)
        draft.spares += count_spares(one.text, library)
        (folder / f"{number:05}.rig.yaml").write_text(write_rig(draft, "Sample"), encoding="utf-8")
    report = check_paths([folder], library=None, today=datetime.date(2026, 5, 2), setup=None, prove=False)
    by_name = {Path(file.file).name: file for file in report.files}

    assert report.unread == ()
    return [(one, by_name[f"{number:05}.rig.yaml"]) for number, one in enumerate(rigs)]


def test_every_rig_checks_without_an_error(reports: list[tuple[Sampled, FileReport]]) -> None:
    wrong = [
        (one.answers, [(f.grade, f.code, f.says) for f in report.findings if f.grade.is_at_least(Grade.FIGHT)])
        for one, report in reports
        if report.unread or any(f.grade.is_at_least(Grade.FIGHT) for f in report.findings)
    ]

    assert len(reports) == COUNT
    assert wrong == []


def test_every_rig_is_quiet(reports: list[tuple[Sampled, FileReport]]) -> None:
    loud = []
    for one, report in reports:
        grades = Counter(finding.grade for finding in report.findings)
        if grades[Grade.THIN] > MOST_THIN or grades[Grade.TIDY] > MOST_TIDY:
            loud.append((one.answers, sorted(finding.code for finding in report.findings)))

    assert loud == []


def test_no_rig_leaves_a_rule_without_a_figure(reports: list[tuple[Sampled, FileReport]]) -> None:
    unknown = [(one.answers, [entry.says for entry in report.unknown]) for one, report in reports if report.unknown]

    assert unknown == []


def test_every_answer_is_among_the_rigs(reports: list[tuple[Sampled, FileReport]]) -> None:
    answers = [one.answers for one, _ in reports]

    assert {one.on for one in answers} == set(PLACES)
    assert {one.camera for one in answers} == set(CAMERAS)
    assert {one.power for one in answers} == set(POWERS)
    assert {one.head for one in answers} == set(HEADS)
    assert {one.lens_by for one in answers} == {*LENS_CONTROLS, None}
    assert {role for one in answers for role in one.picture} == set(VIEWERS)
    assert {control for one in answers for control in one.record} == set(RECORDERS)


def test_a_rig_has_an_owner_for_all_that_was_asked(reports: list[tuple[Sampled, FileReport]], library: Library) -> None:
    for one, _ in reports:
        who = draft_rig(one.answers, library.catalogue).who
        due = {*one.answers.lens, "record", *(("pan", "tilt", "roll") if one.answers.head != "none" else ())}

        assert set(who) == due


def test_a_lead_from_the_rig_to_the_ground_is_long_enough(
    reports: list[tuple[Sampled, FileReport]], library: Library
) -> None:
    lengths: dict[str, float | None] = {}
    for one, _ in reports:
        draft = draft_rig(one.answers, library.catalogue)
        for lead in draft.leads:
            part = library.catalogue.part(lead.part)
            assert part is not None
            assert part.lead is not None
            if draft.leaves_rig(*lead.ends.values()):
                lengths[lead.part] = lead.length or part.lead.length

    assert {"generic/lead-24v-long", "generic/lead-xlr4-long"} <= set(lengths)
    assert {part: length for part, length in lengths.items() if length is None or length < SHORTEST_TO_GROUND} == {}


def test_refusals_are_sentences_that_say_what_to_do(drawn: list[Sampled | Refusal]) -> None:
    says = {str(one) for one in drawn if isinstance(one, Refusal)}

    assert len(says) > 20
    for text in says:
        assert text[0].isupper() or text[0].isdigit(), text
        assert text.endswith("."), text
        assert any(word in text for word in ("say ", "Say ", "leave ", "record from")), text
