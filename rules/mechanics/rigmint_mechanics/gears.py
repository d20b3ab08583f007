"""Another gear on a motor: more teeth are quicker and weaker, fewer are slower and stronger."""

from __future__ import annotations

from rigmint import LEAST_TEETH, MOST_TEETH, Calibrates, Fix, RingDrive, exceeds, say_seconds, say_torque

SLOWEST = 2.0
"""s from end to end, and times the ring's torque: what a focus puller and cold grease ask (common practice)."""
MARGIN = 2.0


def suggest_gear(drive: RingDrive) -> tuple[Fix, ...]:
    """The gear nearest in size with which the drive is strong, soft and quick enough, by the figures that are known."""
    teeth = drive.drive.teeth
    if teeth is None:
        return ()
    sizes = sorted(range(LEAST_TEETH, MOST_TEETH + 1), key=lambda size: (abs(size - teeth), size))
    found = next((size for size in sizes if size != teeth and _suits(drive.with_gear(size))), None)
    if found is None:
        return ()
    other = drive.with_gear(found)
    gives = [f"brings {say_torque(other.torque)} to the ring"] if other.torque is not None else []
    gives += [f"takes {say_seconds(other.seconds)} from end to end"] if other.seconds is not None else []
    told = f": it then {' and '.join(gives)}" if gives else ""
    bound = "more" if found > teeth else "fewer"
    return (Fix(f"Fit a gear of {found} teeth or {bound} to {drive.motor} instead of {teeth}{told}."),)


def is_too_strong(drive: RingDrive) -> bool:
    """Whether the motor presses on the stops with more than they stand."""
    torque, stands = drive.seeking_torque, drive.ring.stands
    return torque is not None and stands is not None and exceeds(torque, stands)


def _suits(drive: RingDrive) -> bool:
    torque, needed = drive.torque, drive.ring.torque
    is_weak = torque is not None and needed is not None and exceeds(MARGIN * needed, torque)
    is_slow = drive.seconds is not None and exceeds(drive.seconds, SLOWEST)
    breaks = drive.calibration.calibrates is not Calibrates.NO and is_too_strong(drive)
    return not (is_weak or is_slow or breaks)
