"""`drive:no-mesh`: the motor's gear and the ring have different teeth."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, RingDrive, Rule, Unknown
from rigmint_mechanics.figures import find_missing, tell_missing

_MILLIMETRES = 1000.0
_ROUGH = 0.05


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each motor whose gear does not fit the ring."""
    for drive in case.drives:
        if drive.unstated is not None:
            yield tell_missing("drive:no-mesh", *drive.unstated)
            continue
        missing = find_missing("drive:no-mesh", drive, ("module",), ("module",))
        if missing is not None:
            yield missing
        elif not drive.meshes:
            yield _report(drive, drive.ring.module or 0.0, drive.drive.module or 0.0)


def _report(drive: RingDrive, ring: float, motor: float) -> Finding:
    is_near = abs(ring - motor) < _ROUGH * ring
    told = "go together by hand, but bind and wear" if is_near else "do not run together"
    return Finding(
        code="drive:no-mesh",
        grade=Grade.DEAD,
        says=(
            f"{drive.motor} has a gear of module {_say(motor)}, and {drive.place} teeth of module {_say(ring)}: they"
            f" {told}."
        ),
        at=drive.place,
        cause=drive.motor,
        measured=Measured(motor, ring, "m"),
        fixes=(
            Fix(
                f"Put a gear of module {_say(ring)} on {drive.motor}, fit a motor that has one, or put a ring of module"
                f" {_say(motor)} on the lens."
            ),
        ),
    )


def _say(module: float) -> str:
    return f"{_MILLIMETRES * module:.3g} mm"


RULE = Rule(
    code="drive:no-mesh",
    grades=(Grade.DEAD,),
    title="The motor does not mesh with the ring",
    looks_for="A lens motor whose gear has another module than the ring that it is fitted to.",
    why="Teeth of two sizes ride up on each other: the motor slips, loses its marks, and wears the ring.",
    put_right="Change the motor's gear, or the ring on the lens, so that both have one module.",
    source="modules by DIN 780-1 and JIS B 1701-2; gears run together where their pitch is the same, p = pi m",
    check=check,
)
