"""`tidy:asset-twice`: one asset number on two things, in a rig or across the rigs of a job."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, check_texts, edit_text, find_line

from .parts import PARTS
from .rigs import TRIPOD

CODE = "tidy:asset-twice"
FILES = {"parts.part.yaml": PARTS}
OWN = edit_text(TRIPOD, ("asset: CAM-07", "asset: CAM-08"), ("asset: LENS-3", "asset: LENS-4"))
SAME = edit_text(OWN, ("asset: CAM-08}", "asset: cam-07}  # here"))


def test_finds_a_camera_in_two_rigs_of_a_job() -> None:
    reports = check_texts({"a_unit": TRIPOD, "b_unit": SAME}, FILES)

    finding = assert_finds(
        reports["b_unit"], CODE, line=find_line(SAME), at="camera", cause="camera", grade=Grade.TIDY
    )  # fmt: skip
    assert finding.says == (
        "cam-07 (camera) is in a_unit.rig.yaml too, a rig of the same job: it can be on one of them at a time."
    )
    assert_silent(reports["a_unit"], CODE)


def test_is_silent_where_each_has_its_own() -> None:
    for report in check_texts({"a_unit": TRIPOD, "b_unit": OWN}, FILES).values():
        assert_silent(report, CODE)


def test_is_silent_where_the_rigs_are_of_two_jobs_or_of_none() -> None:
    for job in ("job: Oat Field\n", ""):
        for report in check_texts(
            {"a_unit": TRIPOD, "b_unit": edit_text(SAME, ("job: Saltmarsh\n", job))}, FILES
        ).values():
            assert_silent(report, CODE)


def test_is_one_finding_for_all_that_two_rigs_share() -> None:
    finding = assert_finds(
        check_texts({"a_unit": TRIPOD, "b_unit": TRIPOD}, FILES)["b_unit"], CODE, line=7, at="camera", cause="camera"
    )
    assert finding.also == ("lens",)


def test_is_silent_on_the_same_rig_flown_another_way() -> None:
    """Its job comes by `like:`, so it is no second rig; one that states the job again is."""
    variant = "rigmint: 1\nrig: Saltmarsh, low\nlike: a_unit.rig.yaml\nstance: underslung\n"
    reports = check_texts({"a_unit": TRIPOD, "low": variant, "lower": variant}, FILES)
    for report in reports.values():
        assert_silent(report, CODE)

    copied = check_texts({"a_unit": TRIPOD, "b_unit": variant + "job: Saltmarsh\n"}, FILES)
    assert CODE in [one.code for one in copied["b_unit"].findings]


def test_finds_a_number_that_is_twice_in_a_rig() -> None:
    rig = edit_text(TRIPOD, ("asset: LENS-3}", "asset: CAM-07}  # here"))

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="lens", cause="lens")
    assert finding.says == "CAM-07 is the asset number of camera and lens."


def test_is_silent_where_a_number_is_never_twice_at_once() -> None:
    rig = edit_text(
        TRIPOD,
        ("  lens: {part: house/lens, asset: LENS-3}\n",
         "  lens: {part: house/lens, asset: LENS-3, in: [wide]}\n  long: {part: house/lens, asset: LENS-3, in: [tele]}\n"),
        ("  - lens.mount > camera.mount\n", "  - lens.mount > camera.mount\n  - long.mount > camera.mount\n"),
    ) + "setups: {wide: {}, tele: {}}\n"  # fmt: skip

    assert_silent(check_text(rig, PARTS), CODE)
