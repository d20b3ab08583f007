"""`owner:wrong-ring`: a control that turns another ring than it is set to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rigmint import (
    LENS_AXES,
    AxisHands,
    Case,
    Claim,
    Finding,
    FitRing,
    Fix,
    Grade,
    Hands,
    Rule,
    SetSetting,
    is_meant,
    say_list,
    setting_place,
)


def check(case: Case) -> Iterator[Finding]:
    """One finding for each lens with motors on the wrong rings."""
    wrong = list_wrong(case.hands)
    lenses = sorted({axis.place.partition(".")[0] for axis, _ in wrong})
    for lens in lenses:
        yield _report(case, [(axis, claim) for axis, claim in wrong if axis.place.partition(".")[0] == lens])


def list_wrong(hands: Hands) -> list[tuple[AxisHands, Claim]]:
    """The rings that a control turns as another axis, where nobody means it so, each with the first such claim."""
    found = []
    for axis in hands.axes.values():
        claim = next((one for one in axis.certain if _is_wrong(hands, axis, one)), None)
        if claim is not None:
            found.append((axis, claim))
    return found


def _is_wrong(hands: Hands, axis: AxisHands, claim: Claim) -> bool:
    """A motor set to one axis may sit on another ring where `who` gives that ring to the person, as over a link that
    carries only one axis; not where the control turns its own ring too, or where the person is left without it."""
    lens, _, ring = axis.place.partition(".")
    if claim.axis == ring or claim.axis not in LENS_AXES or ring not in LENS_AXES:
        return False
    if not is_meant(axis, claim):
        return True
    own = hands.axes.get(f"{lens}.{claim.axis}")
    if own is None:
        return False
    rightly = [one for one in own.claims if one.axis == claim.axis]
    if any(one.control == claim.control for one in rightly):
        return True
    is_theirs = bool(own.meant) and is_meant(own, claim)
    return is_theirs and not any(is_meant(own, one) for one in rightly)


def _report(case: Case, wrong: Sequence[tuple[AxisHands, Claim]]) -> Finding:
    axis, claim = wrong[0]
    motors = list(dict.fromkeys(one.mover.partition(".")[0] for _, one in wrong))
    rings = [one.place for one, _ in wrong[1:]] + [f"{one.place.partition('.')[0]}.{c.axis}" for one, c in wrong]
    cause, fix = _find_remedy(case, wrong, motors)
    motor = claim.mover.partition(".")[0]
    return Finding(
        code="owner:wrong-ring",
        grade=Grade.FIGHT,
        says=(
            f"{claim.control} sends {claim.axis} and turns {axis.place}: {motor}, which answers to {claim.axis}, sits"
            f" on that ring{_say_rest(wrong)}."
        ),
        at=axis.place,
        cause=cause,
        also=tuple(place for place in dict.fromkeys(rings) if place in case.hands.axes and place != axis.place),
        path=claim.path,
        fixes=(fix,),
    )


def _say_rest(wrong: Sequence[tuple[AxisHands, Claim]]) -> str:
    rest = [f"{claim.control} ({claim.axis}) turns {axis.place}" for axis, claim in wrong[1:]]
    return f"; {say_list(rest)}" if rest else ""


def _find_remedy(case: Case, wrong: Sequence[tuple[AxisHands, Claim]], motors: list[str]) -> tuple[str, Fix]:
    """The axis settings of the motors, where those put all right; else where the motors sit, or who reaches them."""
    values = {}
    for axis, claim in wrong:
        motor, _, mover = claim.mover.partition(".")
        setting = case.rig.items[motor].part.moves[mover].axis.setting
        ring = axis.place.partition(".")[2]
        if setting is not None and ring in case.rig.items[motor].part.settings[setting].values:
            values[motor, setting] = ring
    if len(values) == len(motors) and _puts_right(case, values):
        changes = tuple(SetSetting(motor, name, ring, case.setup.name) for (motor, name), ring in values.items())
        told = say_list([f"{motor}.{name} to {ring}" for (motor, name), ring in values.items()])
        fix = Fix(f"Set {told}, as they are fitted." if len(motors) > 1 else f"Set {told}, as it is fitted.", changes)
        return setting_place(*next(iter(values))), fix
    axis, claim = wrong[0]
    if is_meant(axis, claim):
        return f"{motors[0]}.fitted", _move_motors(case, wrong)
    return f"{motors[0]}.fitted", _keep_away(case, axis, claim, motors[0])


def _move_motors(case: Case, wrong: Sequence[tuple[AxisHands, Claim]]) -> Fix:
    """Each motor to the ring of the axis that it answers to, where the lens has it and no other motor stays there."""
    rings = {claim.mover.partition(".")[0]: f"{axis.place.partition('.')[0]}.{claim.axis}" for axis, claim in wrong}
    staying = {f"{one.lens}.{one.ring}" for one in case.rig.fitted.values() if one.motor not in rings}
    is_free = len(set(rings.values())) == len(rings) and not staying & set(rings.values())
    changes = tuple(FitRing(motor, ring) for motor, ring in rings.items())
    told = say_list([f"{motor} to {ring}" for motor, ring in rings.items()])
    whose = "whose axes they answer" if len(rings) > 1 else "whose axis it answers"
    return Fix(f"Move {told}, {whose} to.", changes if is_free else ())


def _puts_right(case: Case, values: dict[tuple[str, str], str]) -> bool:
    """Whether nothing is wrong then, and everybody who has a ring that they are meant to have keeps it."""
    after = case.hands_with(values)
    kept = all(
        any(is_meant(after.axes[place], one) for one in after.axes[place].claims)
        for place, axis in case.hands.axes.items()
        if axis.meant and any(is_meant(axis, one) for one in axis.claims)
    )
    return kept and not list_wrong(after)


def _keep_away(case: Case, axis: AxisHands, claim: Claim, motor: str) -> Fix:
    freeing = case.find_freeing_settings(axis.place, claim.control)
    if freeing:
        item, name, value = freeing[0]
        change = SetSetting(item, name, value, case.setup.name)
        return Fix(f"Set {item}.{name} to {value}: {claim.control} then leaves {axis.place} alone.", (change,))
    return Fix(f"Part {motor} from the bus that {claim.control} reaches, or write down who has {axis.place}.")


RULE = Rule(
    code="owner:wrong-ring",
    grades=(Grade.FIGHT,),
    title="A control turns the wrong ring",
    looks_for=(
        "A motor that answers to one lens axis and sits on the ring of another, where the ring is not given to who"
        " turns it, where the control turns its own ring too, or where the person is left without the ring of the axis."
        " A motor set to focus on the zoom ring is fine where `who:` gives zoom to the person who drives it."
    ),
    why="The first AC racks focus and the shot zooms.",
    put_right="Set the motor to the axis of the ring that it sits on, or move it to the other ring.",
    source="common practice",
    check=check,
)
