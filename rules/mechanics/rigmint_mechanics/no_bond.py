"""`payload:no-bond`: nothing holds it when its mount lets go."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Item, Parameter, Rule, Unknown, exceeds, say_list
from rigmint_mechanics.loads import CAN_HIT

_CODE = "payload:no-bond"


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One roll-up a setup of the heads, and of the heavier items on them, that have no bond of their own."""
    on = case.setup.on
    if on is not None and on not in CAN_HIT:
        return
    unbonded = [item for item in _list_hanging(case) if not item.bond]
    unweighed = [item for item in unbonded if item.part.mass is None and item.part.kind != "head"]
    due = [item for item in unbonded if item not in unweighed and _is_heavy(item, case.parameters["from_mass"])]
    if on is None:
        if due:
            says = f"what the rig is on decides whether {due[0].name} needs a safety bond"
            yield Unknown(_CODE, "on", due[0].name, says)
        return
    if due:
        yield _report(due, on)
    if unweighed:
        names = say_list([item.name for item in unweighed])
        says = f"whether {names} needs a safety bond hangs on a mass that no part states"
        yield Unknown(_CODE, f"mass of {names}", unweighed[0].name, says)


def _list_hanging(case: Case) -> list[Item]:
    """The heads, then what rides on them."""
    riding = case.payloads.riding
    riders = {name for names in riding.on_head.values() for name in names} | riding.unsure
    return [case.rig.items[name] for name in (*sorted(riding.on_head), *sorted(riders))]


def _is_heavy(item: Item, from_mass: float) -> bool:
    return item.part.kind == "head" or (item.part.mass is not None and exceeds(item.part.mass, from_mass))


def _report(due: list[Item], on: str) -> Finding:
    names = [item.name for item in due]
    where = "overhead" if on == "overhead" else f"on a {on}"
    lack = "has no safety bond of its own" if len(names) == 1 else "have no safety bonds of their own"
    return Finding(
        code=_CODE,
        grade=Grade.HURT,
        says=f"{say_list(names)} {lack} {where}.",
        at=names[0],
        cause=names[0],
        also=tuple(names[1:]),
        fixes=(
            Fix(
                f"Fit a safety bond of its own to {'it' if len(names) == 1 else 'each'}, round something that holds,"
                " then write `bond: true`.",
            ),
        ),
    )


RULE = Rule(
    code=_CODE,
    grades=(Grade.HURT,),
    title="No safety bond",
    looks_for=(
        "On a crane, overhead, on a cable or on a vehicle: a head, or an item on it of more than 100 g, without"
        " `bond: true`."
    ),
    why="A plate that lets go, or a clamp that works loose, drops it on somebody.",
    put_right="Fit each with a short bond of its own, rated for its weight, to something that stays up.",
    source="common practice",
    parameters={"from_mass": Parameter(0.1, "mass", "kg from which an item on the head needs a bond of its own")},
    check=check,
    caution=(
        "What is written down holds nothing: check each bond, its rating and where it is anchored. Local codes, the"
        " makers' ratings and a qualified rigger decide."
    ),
)
