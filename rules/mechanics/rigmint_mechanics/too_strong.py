"""`drive:too-strong`: calibration breaks the ring."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Calibrates, Case, Finding, Fix, Grade, Measured, RingDrive, Rule, Unknown, say_torque
from rigmint_mechanics.calibration import suggest_manual
from rigmint_mechanics.figures import find_missing, list_drives, say_teeth, tell_missing
from rigmint_mechanics.gears import is_too_strong, suggest_gear

_CODE = "drive:too-strong"


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each motor that presses on the stops with more than they stand. A ring without stops is another
    rule's."""
    for drive in list_drives(case):
        calibration = drive.calibration
        if drive.ring.stops is False or calibration.calibrates is Calibrates.NO:
            continue
        missing = find_missing(_CODE, drive, ("stands", "teeth"), ("calibration", "teeth"))
        if missing is not None:
            yield missing
        elif is_too_strong(drive):
            if calibration.calibrates is Calibrates.UNKNOWN:
                yield tell_missing(_CODE, calibration.place, calibration.key)
            else:
                yield _report(case, drive, drive.seeking_torque or 0.0, drive.ring.stands or 0.0)


def _report(case: Case, drive: RingDrive, torque: float, stands: float) -> Finding:
    return Finding(
        code=_CODE,
        grade=Grade.BURN,
        says=(
            f"{drive.motor} seeks the stops of {drive.place} with {say_torque(torque)} through {say_teeth(drive)}; they"
            f" stand {say_torque(stands)}."
        ),
        at=drive.place,
        cause=drive.motor,
        measured=Measured(torque, stands, "N*m"),
        fixes=(
            suggest_manual(case, drive),
            *suggest_gear(drive),
            Fix(f"Fit a motor that seeks the stops of {drive.place} with less."),
        ),
    )


RULE = Rule(
    code=_CODE,
    grades=(Grade.BURN,),
    title="Calibration breaks the ring",
    looks_for=(
        "A lens motor that seeks the stops of its ring on its own, with a torque that, times the ratio of the teeth, is"
        " more than the stops stand."
    ),
    why="At switch-on the motor runs into both stops: a delicate lens loses a stop, a cam follower or its focus scale.",
    put_right="Calibrate by hand, or fit a gear or a motor that presses less.",
    source="T2 = T1 z2 / z1 (elementary mechanics); what stops stand: by the lens's part file",
    check=check,
)
