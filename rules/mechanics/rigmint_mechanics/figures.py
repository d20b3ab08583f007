"""Figures that motors and rings must state before a rule can judge them."""

from __future__ import annotations

from rigmint import Case, RingDrive, Unknown


def list_drives(case: Case) -> list[RingDrive]:
    """The motors on rings of which both state something: that one states nothing, `drive:no-mesh` says for all rules
    at once."""
    return [drive for drive in case.drives if drive.unstated is None]


def find_missing(code: str, drive: RingDrive, ring: tuple[str, ...], motor: tuple[str, ...]) -> Unknown | None:
    """The first of the figures of the ring and of the motor that no part states; None where all are there."""
    stated = {
        "module": (drive.ring.module, drive.drive.module),
        "teeth": (drive.ring.teeth, drive.drive.teeth),
        "turn": (drive.ring.turn, None),
        "torque": (drive.ring.torque, drive.drive.torque),
        "stands": (drive.ring.stands, None),
        "speed": (None, drive.drive.speed),
        "calibration": (None, drive.drive.calibration),
    }
    needed = [(drive.place, key, stated[key][0]) for key in ring]
    needed += [(drive.motor, key, stated[key][1]) for key in motor]
    return next((tell_missing(code, place, key) for place, key, value in needed if value is None), None)


def tell_missing(code: str, place: str, key: str) -> Unknown:
    """That a place does not state a figure."""
    return Unknown(code, key, place, f"{place} does not state {key}")


def say_teeth(drive: RingDrive) -> str:
    """`40 : 140 teeth`, the motor's first."""
    return f"{drive.drive.teeth} : {drive.ring.teeth} teeth"
