"""`drive:no-stops`: a motor seeks stops that the ring does not have."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Calibrates, Case, Finding, Fix, Grade, RingDrive, Rule, Unknown
from rigmint_mechanics.calibration import suggest_manual
from rigmint_mechanics.figures import list_drives, tell_missing

_CODE = "drive:no-stops"


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each motor that calibrates on its own on a ring without stops."""
    for drive in list_drives(case):
        calibration = drive.calibration
        if drive.ring.stops or calibration.calibrates is Calibrates.NO:
            continue
        if drive.ring.stops is None:
            yield tell_missing(_CODE, drive.place, "stops")
        elif calibration.calibrates is Calibrates.UNKNOWN:
            yield tell_missing(_CODE, calibration.place, calibration.key)
        else:
            yield _report(case, drive)


def _report(case: Case, drive: RingDrive) -> Finding:
    return Finding(
        code=_CODE,
        grade=Grade.BURN,
        says=f"{drive.motor} seeks stops at switch-on, and {drive.place} has none: it turns on until something gives.",
        at=drive.place,
        cause=drive.motor,
        fixes=(
            suggest_manual(case, drive),
            Fix(f"Drive the lens by its own electronics, or put a ring with stops on {drive.place}."),
        ),
    )


RULE = Rule(
    code=_CODE,
    grades=(Grade.BURN,),
    title="A motor seeks stops that are not there",
    looks_for="A lens motor that calibrates on its own, fitted to a ring without hard stops.",
    why="It turns the ring round and round, or against what ends inside the lens, with its calibration torque.",
    put_right="Set the motor to calibrate by hand.",
    source="common practice",
    check=check,
)
