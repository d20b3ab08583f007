"""`drive:turned-round`: a motor's direction was changed after its marks were set."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Direction, Finding, Fix, Grade, RingDrive, Rule, SetFitting, SetSetting, setting_place

_SETTING = "direction"


def check(case: Case) -> Iterator[Finding]:
    """One finding for each motor that runs the other way round than when its marks were set."""
    for drive in case.drives:
        if drive.direction is not None and drive.direction.now != drive.direction.marked:
            yield _report(case, drive, drive.direction)


def _report(case: Case, drive: RingDrive, direction: Direction) -> Finding:
    motor = drive.motor
    is_stated = direction.by_setting and (motor, _SETTING) in case.setup.settings
    back: SetSetting | SetFitting = SetFitting(motor, "direction", direction.marked)
    if direction.by_setting:
        back = SetSetting(motor, _SETTING, direction.marked, case.setup.name)
    return Finding(
        code="drive:turned-round",
        grade=Grade.THIN,
        says=(
            f"{motor} runs {direction.now} on {drive.place}, and its marks were set when it ran {direction.marked}: the"
            " marks are back to front."
        ),
        at=drive.place,
        cause=setting_place(motor, _SETTING) if is_stated else drive.fitted,
        fixes=(
            Fix(f"Turn the direction of {motor} back to {direction.marked}.", (back,)),
            Fix(
                f"Set the marks of {drive.place} anew, then write that {motor} was marked {direction.now}.",
                (SetFitting(motor, "marked", direction.now),),
            ),
        ),
    )


RULE = Rule(
    code="drive:turned-round",
    grades=(Grade.THIN,),
    title="The motor was turned round after its marks were set",
    looks_for="A motor on a ring that now runs the other way round than when its marks were set, as `fitted:` says.",
    why="The hand unit's marks show close where the lens is far.",
    put_right="Turn the direction back, or set the marks anew.",
    source="common practice",
    check=check,
)
