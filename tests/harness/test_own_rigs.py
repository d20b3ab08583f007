"""A pack's own rigs: what must stand in `tests/rigs`, and what each is held to."""

from __future__ import annotations

from pathlib import Path

import pytest

from rigmint.testing import BadCase, edit_text
from rigmint.testing.own_rigs import judge_own_rig, list_own_rigs
from tests.harness.bad_packs import RIGHT, SHOWS, make_pack, name_pack, open_pack

MARK = "  # fault: NAME:plate"
SHORTED = """\
rigmint: 1
rig: Tern Point
kit:
  battery: generic/battery-98wh-wedge
  plate: generic/plate-wedge-two-tap  # fault: NAME:plate
  camera: generic/camera-compact
docks: [battery.mount > plate.battery]
leads:
  P1: {part: generic/lead-tap-to-2pin-plus-first, from: plate.tap_1, to: camera.dc_in}
"""
CASES: list[tuple[dict[str, str | None], str, list[str]]] = [
    ({}, "plate.shows", []),
    ({}, "plate.right", []),
    ({"plate.alike-2.rig.yaml": RIGHT}, "plate.alike-2", []),
    ({"plate.shows.rig.yaml": edit_text(SHOWS, ("plate-wedge-two-tap", "battery-98wh-wedge"))}, "plate.shows", ["on line 4, and did not come"]),
    ({"plate.shows.rig.yaml": edit_text(SHOWS, ("kit:", f"kit:{MARK}"), (f"two-tap{MARK}", "two-tap"))}, "plate.shows", ["on line 3, and came on line 4"]),
    ({"plate.shows.rig.yaml": edit_text(SHOWS, (MARK, ""))}, "plate.shows", ["must stand on one line, not on 0"]),
    ({"plate.shows.rig.yaml": edit_text(SHOWS, ("kit:", f"kit:{MARK}"))}, "plate.shows", ["must stand on one line, not on 2"]),
    ({"plate.shows.rig.yaml": edit_text(SHOWS, ("fault: NAME:plate", "fault: voltage:over"))}, "plate.shows", ["names no rule of the pack"]),
    ({"plate.shows.rig.yaml": SHORTED}, "plate.shows", ["it shows more than its fault: polarity:reversed"]),
    ({"plate.right.rig.yaml": None}, "plate.shows", ["no plate.right.rig.yaml"]),
    ({"plate.right.rig.yaml": edit_text(SHOWS, (MARK, ""))}, "plate.right", ["it is fine, and NAME:plate came"]),
    ({"plate.right.rig.yaml": SHOWS}, "plate.right", ["marks NAME:plate", "it is fine, and NAME:plate came"]),
    ({"plate.alike.rig.yaml": edit_text(SHORTED, (MARK, ""))}, "plate.alike", ["it is fine, and polarity:reversed, NAME:plate came"]),
    ({"dial.alike.rig.yaml": RIGHT}, "dial.alike", ["no dial.shows.rig.yaml"]),
]  # fmt: skip


@pytest.mark.parametrize("number", range(len(CASES)))
def test_each_rig_is_held_to_what_it_is_for(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int) -> None:
    rigs, name, says = CASES[number]
    monkeypatch.syspath_prepend(tmp_path)
    pack = name_pack("own", number)
    one, runs = open_pack(make_pack(tmp_path, pack, rigs=rigs))
    faults = list(judge_own_rig(one, runs, name))

    assert len(faults) == len(says)
    for fault, said in zip(faults, says, strict=True):
        assert said.replace("NAME", pack) in fault


@pytest.mark.parametrize(
    ("rigs", "says"),
    [
        ({"plate.rig.yaml": RIGHT}, "must end in .shows, .right or .alike"),
        ({"rigmint.yaml": None}, "holds no rigmint.yaml"),
        ({"plate.shows.rig.yaml": None, "plate.right.rig.yaml": None}, "no rig file"),
    ],
)
def test_a_folder_that_is_not_whole_is_no_case(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, rigs: dict[str, str | None], says: str
) -> None:
    monkeypatch.syspath_prepend(tmp_path)
    one, _ = open_pack(make_pack(tmp_path, "whole", rigs=rigs))

    with pytest.raises(BadCase, match=says):
        list_own_rigs(one)


def test_a_rig_that_cannot_be_read_is_no_case(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(tmp_path)
    one, runs = open_pack(make_pack(tmp_path, "unread", rigs={"plate.shows.rig.yaml": SHOWS + "lead: {}\n"}))

    with pytest.raises(BadCase, match="file:unknown-key"):
        list(judge_own_rig(one, runs, "plate.shows"))
    with pytest.raises(BadCase, match="file:unknown-key"):
        _ = runs.judgements
