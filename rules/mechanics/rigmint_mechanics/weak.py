"""`drive:weak`: the motor does not turn the ring, or only just."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, Parameter, RingDrive, Rule, Unknown, exceeds, say_torque
from rigmint_mechanics.figures import find_missing, list_drives, say_teeth
from rigmint_mechanics.gears import MARGIN, suggest_gear


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each motor that brings too little torque to its ring."""
    for drive in list_drives(case):
        torque, needed = drive.torque, drive.ring.torque
        missing = find_missing("drive:weak", drive, ("torque", "teeth"), ("torque", "teeth"))
        if missing is not None:
            yield missing
        elif torque is not None and needed is not None and exceeds(case.parameters["margin"] * needed, torque):
            yield _report(drive, torque, needed, case.parameters["margin"])


def _report(drive: RingDrive, torque: float, needed: float, margin: float) -> Finding:
    turns = not exceeds(needed, torque)
    judged = f"less than {margin:g} times that, and cold grease doubles it" if turns else "the ring stays where it is"
    return Finding(
        code="drive:weak",
        grade=Grade.THIN if turns else Grade.DEAD,
        says=(
            f"{drive.motor} brings {say_torque(torque)} to {drive.place} through {say_teeth(drive)}; the ring takes"
            f" {say_torque(needed)}: {judged}."
        ),
        at=drive.place,
        cause=drive.motor,
        measured=Measured(torque, margin * needed if turns else needed, "N*m"),
        fixes=(*suggest_gear(drive), Fix(f"Fit a stronger motor to {drive.place}, or free the ring.")),
    )


RULE = Rule(
    code="drive:weak",
    grades=(Grade.DEAD, Grade.THIN),
    title="The motor is weak for the ring",
    looks_for=(
        "A lens motor whose torque, times the ratio of the teeth, is less than the ring takes, or less than twice that."
    ),
    why="A motor that only just turns a ring on the bench stalls on a cold morning, and loses its marks.",
    put_right="Fit a smaller gear or a stronger motor.",
    source="T2 = T1 z2 / z1 (elementary mechanics); that cold grease doubles it: common practice",
    parameters={"margin": Parameter(MARGIN, None, "times the ring's torque that the motor must bring")},
    check=check,
)
