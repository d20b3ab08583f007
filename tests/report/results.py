"""Builders of results in memory, for the tests of reports and commands: an invented rig of an invented house."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from rigmint.library.faults import Fault
from rigmint.library.tree_edits import Edit
from rigmint.lint.case import Case
from rigmint.lint.finding import Finding, Measured, Unknown
from rigmint.lint.packs import Pack, PackSet
from rigmint.lint.results import Accepted, FileReport, Override, Report, ReportedFinding, ReportedFix
from rigmint.lint.rule import Parameter, Rule
from rigmint.rig.device import SignalKind
from rigmint.rig.place import Position
from rigmint.study.hands import AxisHands, Claim, Hands, Stopped
from rigmint.words import Grade

RIG_FILE = "saltmarsh-two-up.rig.yaml"
HOSTILE = "lamp\x1b[2J\u202e\x07\x9b31m\n\u2066<script>{0}](x)\udcff"
"""A name with a terminal escape, bidirectional marks, a bell, a C1 control, a line break, markup and a stray byte."""

OVER = ReportedFinding(
    code="voltage:over",
    grade=Grade.BURN,
    says="handgrip.usb is destroyed above 5.5 V; lead P4 can put 16.8 V on it.",
    at="handgrip.usb",
    cause="P4",
    also=(),
    position=Position(48, 3),
    setups=("two_up", "solo"),
    path=("battery", "plate.tap_2", "P4", "motor_f.bus_1", "motor_f.bus_2", "D6", "handgrip.usb"),
    measured=Measured(16.8, 5.5, "V"),
    assumed=("handgrip.usb survives", "P2 pin-out"),
    fixes=(
        ReportedFix(
            "take out P4. The handgrip already feeds motor_f through D6.", True, (Edit("remove", ("leads", "P4")),)
        ),
    ),
    accepted=None,
)
REACHABLE = replace(
    OVER,
    code="follow:reachable",
    grade=Grade.THIN,
    says="desk.mode_button steps head to pan_follow, in which pan follows.",
    at="head.pan",
    cause="head.set.mode",
    position=Position(7, 12),
    setups=("solo",),
    path=(),
    measured=None,
    assumed=(),
    fixes=(ReportedFix("set head.pan_lock to on", None, ()), ReportedFix("tape over desk.mode_button", False, ())),
)
ACCEPTED = replace(
    OVER,
    code="backfeed:into-output",
    cause="P7",
    at="plate.usb",
    position=Position(52, 3),
    accepted=Accepted("Diode fitted inside the sleeve", "prep lead", "2027-03-01"),
)
UNKNOWN_NAME = Fault(
    RIG_FILE,
    12,
    9,
    "file:unknown-name",
    "`camera.dcin`: `generic/camera-compact` has no port `dcin`: did you mean `dc_in`?",
)


def make_file(**changes: Any) -> FileReport:
    """A rig file of 23 items without findings; `changes` replace fields."""
    plain = FileReport(RIG_FILE, 23, 17, ("two_up", "solo"), (), (), (), ())
    return replace(plain, **changes)


def make_report(*files: FileReport, **changes: Any) -> Report:
    """A run over `files` with two packs."""
    plain = Report(
        version="0.1.0",
        today="2026-05-02",
        packs=MappingProxyType({"voltage": "0.1.0", "follow": "0.2.0"}),
        rules=9,
        files=files,
        unread=(),
        overrides=(),
        fail_on={file.file: Grade.FIGHT for file in files},
    )
    return replace(plain, **changes)


def make_rule(code: str, *grades: Grade, caution: str | None = None, **changes: Any) -> Rule:
    """A whole rule that finds nothing."""
    plain = Rule(
        code=code,
        grades=grades or (Grade.BURN,),
        title="A port gets more volts than it survives",
        looks_for="The highest voltage that any source can put on a port, against what the port survives.",
        why="The first plug-in is enough.",
        put_right="Take the lead out, or put a regulator between.",
        source="common practice",
        check=find_nothing,
        caution=caution,
    )
    return replace(plain, **changes)


def find_nothing(_case: Case) -> list[Finding | Unknown]:
    """The function of a rule that is silent."""
    return []


def make_packs(*faults: Fault) -> PackSet:
    """Two packs with three rules; the first is brought by two distributions."""
    caution = "Nobody stands under the head."
    margin = {"margin": Parameter(0.5, "voltage", "V that must be left"), "count": Parameter(3.0, None, "how many")}
    voltage = Pack(
        "voltage",
        "0.1.0",
        ("rigmint", "rigmint-voltage"),
        (
            make_rule("voltage:over", parameters=margin),
            make_rule("voltage:shock", Grade.HURT, title="Over 60 V d.c.", caution=caution),
        ),
    )
    follow = Pack("follow", "0.2.0", ("rigmint",), (make_rule("follow:reachable", Grade.THIN, title="Follow is near"),))
    return PackSet((voltage, follow), faults)


def make_claim(control: str, person: str | None, mover: str = "motor_f.shaft", **changes: Any) -> Claim:
    """A claim of an absolute control on focus."""
    plain = Claim(
        control=control,
        person=person,
        sends=SignalKind.ABSOLUTE,
        arrives=SignalKind.ABSOLUTE,
        mover=mover,
        axis="focus",
        automatic=False,
        takes_over=None,
        path=(control, "D6", mover),
        reach=None,
        assumes={},
    )
    return replace(plain, **changes)


def make_axis(
    place: str,
    *claims: Claim,
    meant: tuple[str, ...] = (),
    stopped: tuple[Stopped, ...] = (),
    name: str | None = None,
) -> AxisHands:
    """One axis; short name by default."""
    return AxisHands(place, name or place.partition(".")[2], meant, claims, stopped)


def make_hands(*axes: AxisHands) -> Hands:
    """The study of one setup."""
    by_place: Mapping[str, AxisHands] = {axis.place: axis for axis in axes}
    return Hands(by_place)


OVERRIDE = Override("voltage:over", "voltage:over is turned off in rigmint.yaml")
WANTS_FIGURE = Unknown(
    "voltage:under", "works", "camera.dc_in", "camera.dc_in does not state the window that it works in"
)
