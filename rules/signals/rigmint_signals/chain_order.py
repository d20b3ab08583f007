"""`fit:chain-order`: a device that is not next to what it must be next to."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Item, Lead, MoveEnd, PortRef, Rule, Unknown
from rigmint_signals.conditions import find_state
from rigmint_signals.plugs import list_free_ports, list_made_for, list_spoken


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each device out of its place in the chain."""
    for item in case.items:
        if item.name in case.setup.off:
            continue
        for need in item.part.needs:
            if need.next_to is None or need.next_to in _list_neighbour_kinds(case, item):
                continue
            state = find_state(case, item, need.when)
            if state.holds:
                yield _report(case, item, need.next_to, state.says)
            elif state.unknown is not None:
                says = f"whether {item.name} must be next to a {_say_kind(need.next_to)} hangs on {state.unknown}"
                yield Unknown("fit:chain-order", state.unknown, item.name, says)


def _list_neighbours(case: Case, item: Item) -> Iterator[tuple[PortRef, str | None]]:
    """The ports of other items that it is docked to, or joined to by a lead over which something passes."""
    for connection in case.connections:
        if connection.lead is not None and not connection.protocols:
            continue
        ends = (connection.first, connection.second)
        for here, there in (ends, ends[::-1]):
            if here.item == item.name:
                yield there, connection.lead


def _list_neighbour_kinds(case: Case, item: Item) -> set[str]:
    return {case.rig.items[ref.item].part.kind for ref, _ in _list_neighbours(case, item)}


def _say_kind(kind: str) -> str:
    return kind.replace("_", " ")


def _report(case: Case, item: Item, kind: str, condition: str) -> Finding:
    wired = [(ref, label) for ref, label in _list_neighbours(case, item) if label is not None]
    because = f" ({condition})" if condition else ""
    says = f"{item.name} must be next to a {_say_kind(kind)} in the chain{because}"
    if not wired:
        return Finding(
            code="fit:chain-order",
            grade=Grade.DEAD,
            says=f"{says}, and no lead of it carries anything.",
            at=item.name,
            cause=item.name,
            fixes=(Fix(f"Plug {item.name} into the {_say_kind(kind)}."),),
        )
    (ref, label), lead = wired[0], case.rig.leads[wired[0][1] or ""]
    return Finding(
        code="fit:chain-order",
        grade=Grade.DEAD,
        says=f"{says}, and {label} joins it to {ref.place}.",
        at=item.name,
        cause=lead.label,
        path=(item.name, lead.label, ref.place),
        fixes=(_find_fix(case, item, lead, ref, kind),),
    )


def _find_fix(case: Case, item: Item, lead: Lead, far: PortRef, kind: str) -> Fix:
    end = next(one for one, ref in lead.plugged.items() if ref == far)
    for other in case.items:
        if other.part.kind != kind:
            continue
        target = _find_port(case, lead, end, other)
        if target is not None:
            change = MoveEnd(lead.label, end, target.place)
            return Fix(f"Plug {lead.label} into {target.place} instead of {far.place}.", (change,))
    for other in case.items:
        free = _find_common_port(case, item, other) if other.part.kind == kind else None
        if free is not None:
            return Fix(f"Join {item.name} to {free.place} instead, by a lead of its own.")
    return Fix(f"Change the order of the chain, so that {item.name} sits between the {_say_kind(kind)} and the rest.")


def _find_port(case: Case, lead: Lead, end: str, item: Item) -> PortRef | None:
    """A free port of an item that speaks what the lead carries with its other end."""
    others = [list_spoken(case, case.port(ref)) for one, ref in lead.plugged.items() if one != end]
    made = list_made_for(case, lead, end)
    for ref in list_free_ports(case, lead, end, item.name):
        shared = {name for words in others for name in words & list_spoken(case, case.port(ref))}
        if shared and (made is None or made & shared):
            return ref
    return None


def _find_common_port(case: Case, item: Item, other: Item) -> PortRef | None:
    """A port of the other that nothing is plugged into and that speaks what some port of the item speaks."""
    spoken = {name for port in item.part.ports.values() for name in list_spoken(case, port)}
    used = {ref for label in case.setup.leads for ref in case.rig.leads[label].plugged.values()}
    ports = ((PortRef(other.name, port.name), port) for port in other.part.ports.values())
    return next((ref for ref, port in ports if ref not in used and spoken & list_spoken(case, port)), None)


RULE = Rule(
    code="fit:chain-order",
    grades=(Grade.DEAD,),
    title="Out of order in the chain",
    looks_for=(
        "A device whose part says that it must be next to a device of some kind, and that no lead or dock joins to one."
    ),
    why="Some devices answer only to their neighbour: further down the chain they light up and do nothing.",
    put_right="Change the order of the chain, or plug the device straight into the one that it needs.",
    source="common practice",
    check=check,
)
