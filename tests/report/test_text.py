"""The report for a person: golden texts, as in the trade's words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from rigmint.library.faults import Fault
from rigmint.report.style import Style
from rigmint.report.text import render_faults, render_report
from rigmint.words import Grade
from tests.report.results import (
    ACCEPTED,
    HOSTILE,
    OVER,
    OVERRIDE,
    REACHABLE,
    RIG_FILE,
    UNKNOWN_NAME,
    WANTS_FIGURE,
    make_file,
    make_report,
)

CAUTIONS = """\
No fault found is no proof: meter the polarity and voltage of each power lead before it is first
plugged in.
Follow the makers' manuals. Lithium batteries, overhead and vehicle rigs, moving heads and radio
transmitters fall under local codes and qualified people.
"""


def test_a_whole_report() -> None:
    file = make_file(
        findings=(REACHABLE, ACCEPTED, OVER),
        unknown=(WANTS_FIGURE,),
        assumed=("P2 pin-out", "handgrip.usb survives", "P3 length"),
    )
    report = make_report(file, overrides=(OVERRIDE,))

    assert render_report(report, Style()) == (
        """\
saltmarsh-two-up.rig.yaml   23 items, 17 leads, 2 setups

burn   voltage:over                                  line 48, every setup
       handgrip.usb is destroyed above 5.5 V; lead P4 can put 16.8 V on it.
       battery > plate.tap_2 > P4 > motor_f.bus_1 > motor_f.bus_2 > D6 > handgrip.usb
       Rests on assumed figures (~): handgrip.usb survives, P2 pin-out.
       Fix (proved): take out P4. The handgrip already feeds motor_f through D6.

thin   follow:reachable                              line 7, solo
       desk.mode_button steps head to pan_follow, in which pan follows.
       Fix: set head.pan_lock to on
       Or (not proved): tape over desk.mode_button

1 burn, 1 thin, 1 accepted. Checked with 2 packs, 9 rules.
3 figures assumed (~); findings rest on P2 pin-out, handgrip.usb survives.
Not judged: voltage:under at camera.dc_in (needs works).
Changed by the library: voltage:over is turned off in rigmint.yaml.
"""
        + CAUTIONS
    )


def test_faults_stand_under_their_file_in_the_same_layout() -> None:
    in_part = Fault("parts/lamp.part.yaml", 3, 1, "file:missing-key", "`kind` is missing")
    pack = Fault("kestrel-house", 1, 1, "pack:broken", "pack kestrel-house 1.0 cannot be imported")
    file = make_file(items=0, leads=0, setups=(), unread=(UNKNOWN_NAME, in_part))
    report = make_report(file, unread=(pack,))

    assert render_report(report, Style()) == (
        """\
packs

unread pack:broken
       pack kestrel-house 1.0 cannot be imported

saltmarsh-two-up.rig.yaml   not checked

unread file:unknown-name                             line 12
       `camera.dcin`: `generic/camera-compact` has no port `dcin`: did you mean `dc_in`?

unread file:missing-key                              parts/lamp.part.yaml, line 3
       `kind` is missing

3 unread. Checked with 2 packs, 9 rules.
"""
        + CAUTIONS
    )


@pytest.mark.parametrize(
    ("code", "line", "place"),
    [
        ("file:unreadable", 1, ""),
        ("file:unreadable", 4, "line 4"),
        ("rule:crashed", 1, ""),
        ("file:unknown-key", 1, "line 1"),
        ("pack:broken", 1, ""),
    ],
)
def test_a_line_is_shown_where_it_says_something(code: str, line: int, place: str) -> None:
    text = render_faults((Fault(RIG_FILE, line, 1, code, "it is so"),), Style())

    assert text.splitlines()[2].removeprefix(f"unread {code}").strip() == place


def test_files_with_nothing_to_show_stand_together() -> None:
    files = [make_file(file=name) for name in ("c.rig.yaml", "a.rig.yaml")]
    signed = make_file(file="b.rig.yaml", findings=(ACCEPTED,))

    assert render_report(make_report(*files, signed), Style()) == (
        """\
a.rig.yaml   23 items, 17 leads, 2 setups   nothing found
b.rig.yaml   23 items, 17 leads, 2 setups   1 accepted
c.rig.yaml   23 items, 17 leads, 2 setups   nothing found

No fault found, 1 accepted in 3 rig files. Checked with 2 packs, 9 rules.
"""
        + CAUTIONS
    )


def test_of_many_files_those_with_nothing_to_show_are_only_counted() -> None:
    files = [make_file(file=f"{number:02}.rig.yaml") for number in range(20)]
    text = render_report(make_report(*files, make_file(findings=(OVER,))), Style())

    assert ".rig.yaml   23 items" in text
    assert "00.rig.yaml" not in text
    assert "1 burn in 21 rig files. 20 of them have nothing to show. Checked with" in text


def test_no_fault_found_is_not_said_of_what_was_not_read() -> None:
    text = render_report(make_report(unread=(Fault("rigs", 1, 1, "file:unreadable", "it is not there"),)), Style())

    assert "No fault found." not in text
    assert "1 unread." in text


@pytest.mark.parametrize(
    ("assumed", "rests_on", "line"),
    [
        ((), (), ""),
        (("P2 pin-out",), (), "1 figure assumed (~); no finding rests on one."),
        (("P2 pin-out",), ("P2 pin-out",), "1 figure assumed (~): P2 pin-out."),
        (("P2 pin-out", "P3 length"), ("P2 pin-out",), "2 figures assumed (~); findings rest on P2 pin-out."),
        ((), ("link reach",), "1 figure assumed (~): link reach."),
    ],
)
def test_the_line_of_assumed_figures(assumed: tuple[str, ...], rests_on: tuple[str, ...], line: str) -> None:
    file = make_file(findings=(replace(OVER, assumed=rests_on),), assumed=assumed)
    lines = render_report(make_report(file), Style()).splitlines()

    assert [found for found in lines if "assumed (~)" in found and found[0] != " "] == ([line] if line else [])


def test_further_places_of_one_cause_are_named_and_cut_short() -> None:
    also = tuple(f"motor_{number}.bus" for number in range(11))
    text = render_report(make_report(make_file(findings=(replace(OVER, also=also),))), Style(width=400))

    assert "       Also: motor_0.bus, " in text
    assert "motor_7.bus and 3 more." in text


@pytest.mark.parametrize("width", [40, 60, 80, 100])
def test_every_line_fits_the_width(width: int) -> None:
    many = replace(OVER, setups=tuple(f"setup_number_{index}" for index in range(9)))
    file = make_file(findings=(OVER, REACHABLE, many), unread=(UNKNOWN_NAME,), unknown=(WANTS_FIGURE,) * 3)
    lines = render_report(make_report(file, overrides=(OVERRIDE,)), Style(width)).splitlines()

    assert max(len(line) for line in lines[2:]) <= width


def test_only_grade_words_are_coloured() -> None:
    report = make_report(make_file(findings=(OVER, REACHABLE), unread=(UNKNOWN_NAME,)))
    coloured = render_report(report, Style(colour=True))
    marked = [part.partition("\x1b[0m")[0].partition("m")[2] for part in coloured.split("\x1b[")[1::2]]
    bare = coloured
    for code in ("\x1b[1;31m", "\x1b[33m", "\x1b[1;35m", "\x1b[0m"):
        bare = bare.replace(code, "")

    assert marked == ["unread", "burn", "thin"]
    assert bare == render_report(report, Style())


def test_hostile_names_are_shown_and_harmless() -> None:
    hostile = replace(
        OVER,
        says=HOSTILE,
        at=HOSTILE,
        cause=HOSTILE,
        also=(HOSTILE,),
        path=(HOSTILE,),
        assumed=(HOSTILE,),
        fixes=(replace(OVER.fixes[0], says=HOSTILE),),
    )
    fault = Fault(HOSTILE, 1, 1, "file:not-yaml", HOSTILE)
    file = make_file(file=HOSTILE, findings=(hostile,), unread=(fault,), assumed=(HOSTILE,))
    text = render_report(make_report(file, unread=(fault,)), Style()) + render_faults((fault,), Style())
    shown = {character for character in text if not character.isprintable()}

    assert shown == {"\n"}
    assert "\\x1b[2J\\u202e\\x07\\x9b31m\\n\\u2066" in text


def test_a_report_names_no_place_as_a_compiler_does() -> None:
    text = render_report(make_report(make_file(findings=(OVER,), unread=(UNKNOWN_NAME,))), Style())

    assert f"{RIG_FILE}:" not in text
    assert "^" not in text


def test_the_worst_grade_comes_first_whatever_the_order_of_results() -> None:
    mixed = [replace(OVER, grade=grade, code=f"a:{grade.value}") for grade in reversed(Grade)]
    text = render_report(make_report(make_file(findings=tuple(mixed))), Style())
    grades = [line.split()[0] for line in text.splitlines() if " a:" in line]

    assert grades == ["hurt", "burn", "dead", "fight", "thin", "tidy"]
