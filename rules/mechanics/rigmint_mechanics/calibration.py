"""Calibration by hand, as the remedy for a ring that a motor must not run into."""

from __future__ import annotations

from rigmint import Case, Fix, RingDrive, SetSetting


def suggest_manual(case: Case, drive: RingDrive) -> Fix:
    """The setting under which the motor does not seek the stops; else to keep it off the ring at switch-on."""
    calibration = drive.calibration
    if calibration.setting is not None and calibration.manual is not None:
        item, name = calibration.setting
        change = SetSetting(item, name, calibration.manual, case.setup.name)
        says = f"Set {item}.{name} to {calibration.manual}, and set the ends of {drive.place} by hand."
        return Fix(says, (change,))
    return Fix(f"Keep {drive.motor} off the ring at switch-on, and set the ends of {drive.place} by hand.")
