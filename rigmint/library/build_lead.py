"""The body of a lead from its file, and the one that stands in for a lead that nobody described."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from rigmint.library.build_electric import build_fuse, build_regulator, read_sex
from rigmint.library.document import Path, Value
from rigmint.library.scope import Scope, as_tuple, freeze, numbered
from rigmint.rig.connector import Connector
from rigmint.rig.electric import MINUS, PLUS, Port
from rigmint.rig.lead import Carry, Conductor, EndContact, LeadBody, LeadEnd, Loss

DEFAULT_LENGTH = 0.5
_STRAIGHT = "straight"


def build_lead_body(tree: Mapping[str, Any], path: Path, scope: Scope) -> LeadBody | None:
    """The lead in `tree` (a part of kind lead, or `lead:` in a rig); None after recording why there is none."""
    ends = _build_ends(tree.get("ends", {}), path, scope)
    if len(ends) < 2:
        if not tree.get("ends"):
            scope.fault(path, "file:missing-key", "a lead is described by its `ends` and `conductors`")
        elif _count_written_ends(path, scope) == 1:
            scope.fault((*path, "ends"), "file:missing-key", "a lead has two ends or more")
        return None
    assumed = set() if "length" in tree else {"length"}
    loss = tree.get("loss")
    return LeadBody(
        ends=ends,
        conductors=_build_conductors(tree.get("conductors", ()), ends, path, scope),
        carries=_build_carries(tree.get("carries"), ends, path, scope),
        length=tree.get("length", DEFAULT_LENGTH),
        loss=Loss(loss["at"], loss["per_metre"]) if loss else None,
        mark=tree.get("mark"),
        mass=tree.get("mass"),
        straight=False,
        assumed=frozenset(assumed),
    )


def _count_written_ends(path: Path, scope: Scope) -> int:
    """How many ends the file lists, those that are refused too."""
    here: Value = scope.document.tree
    for step in (*path, "ends"):
        here = here.get(str(step)) if isinstance(here, dict) else None
    return len(here) if isinstance(here, dict) else 0


def _build_ends(tree: Mapping[str, Any], path: Path, scope: Scope) -> Mapping[str, LeadEnd]:
    ends = {}
    for name, body in tree.items():
        connector = scope.connector((*path, "ends", name, "connector"), body["connector"])
        if connector is not None:
            ends[name] = LeadEnd(name, connector, read_sex(body.get("sex")), body.get("tag"))
    return freeze(ends)


def _build_conductors(value: Any, ends: Mapping[str, LeadEnd], path: Path, scope: Scope) -> tuple[Conductor, ...]:
    here: Path = (*path, "conductors")
    if value == _STRAIGHT:
        return _join_straight(ends, here, scope)
    conductors = []
    for index, body in numbered(value):
        source = _read_contact(body["from"], ends, (*here, index, "from"), scope)
        target = _read_contact(body["to"], ends, (*here, index, "to"), scope)
        if source is None or target is None:
            continue
        regulator = body.get("regulator")
        ground = None
        if regulator is not None:
            ground_text = regulator.get("ground") or _find_ground(target, ends)
            if ground_text is None:
                says = "a regulator in a lead needs `ground`, the contact of its minus"
                scope.fault((*here, index, "regulator"), "file:missing-key", says)
                continue
            ground = _read_contact(ground_text, ends, (*here, index, "regulator", "ground"), scope)
        conductors.append(
            Conductor(
                index=index,
                source=source,
                target=target,
                gauge=body.get("gauge"),
                area=body.get("area"),
                fuse=build_fuse(body.get("fuse")),
                diode=body.get("diode"),
                regulator=build_regulator(regulator) if regulator is not None else None,
                ground=ground,
                assumed=frozenset() if "gauge" in body or "area" in body else frozenset({"gauge"}),
            )
        )
    return tuple(conductors)


def _find_ground(target: EndContact, ends: Mapping[str, LeadEnd]) -> str | None:
    """The minus of the end that a regulator feeds, by the usual pin-out in which its own contact is plus."""
    for pinout in ends[target.end].connector.usual.values():
        if pinout.get(target.contact) == PLUS:
            return next((f"{target.end}.{c}" for c, role in pinout.items() if role == MINUS), None)
    return None


def _read_contact(text: str, ends: Mapping[str, LeadEnd], path: Path, scope: Scope) -> EndContact | None:
    end_name, _, contact = text.partition(".")
    if not scope.knows(path, end_name, ends, "end of this lead called"):
        return None
    connector = ends[end_name].connector
    if not scope.knows(path, contact, connector.contacts, f"contact of `{connector.id}` called"):
        return None
    return EndContact(end_name, contact)


def _join_straight(ends: Mapping[str, LeadEnd], path: Path, scope: Scope) -> tuple[Conductor, ...]:
    first, *others = ends.values()
    if any(other.connector.id != first.connector.id for other in others):
        scope.fault(path, "file:bad-value", "`straight` joins equal connectors; these ends differ: list the conductors")
        return ()
    pairs = [(contact, other) for other in others for contact in first.connector.contacts]
    return tuple(
        _plain(index, EndContact(first.name, contact), EndContact(other.name, contact), None)
        for index, (contact, other) in enumerate(pairs)
    )


def _plain(index: int, source: EndContact, target: EndContact, gauge: float | None) -> Conductor:
    return Conductor(index, source, target, gauge, None, None, None, None, None, frozenset({"gauge"}))


def _build_carries(value: Any, ends: Mapping[str, LeadEnd], path: Path, scope: Scope) -> tuple[Carry, ...] | None:
    here: Path = (*path, "carries")
    if value is None:
        return None
    if isinstance(value, Mapping):
        carries = []
        for protocol, names in value.items():
            known = scope.knows((*here, protocol), protocol, scope.tokens.protocols, "protocol")
            named = [n for n in as_tuple(names) if scope.knows((*here, protocol), n, ends, "end of this lead called")]
            if known:
                carries.append(Carry(protocol, frozenset(named)))
        return tuple(carries)
    return tuple(Carry(name, None) for name in scope.protocols(here, value))


def assume_lead(first: Port, second: Port, length: float | None, *, from_tap: bool) -> LeadBody:
    """The lead that stands in for one that nobody described: straight between equal connectors, by the usual
    pin-outs between unequal ones; its ends mate with what they are plugged into."""
    ends = {
        "a": LeadEnd("a", first.connector, first.sex.opposite, None),
        "b": LeadEnd("b", second.connector, second.sex.opposite, None),
    }
    pairs = _pair_contacts(first.connector, second.connector)
    power = set(first.feeds) | set(first.minus_contacts)
    far_power = set(second.feeds) | set(second.minus_contacts)
    is_usb = first.connector.id.startswith("usb-") or second.connector.id.startswith("usb-")
    power_gauge = 24.0 if is_usb else 20.0 if from_tap else 22.0
    conductors = tuple(
        _plain(
            index,
            EndContact("a", near),
            EndContact("b", far),
            power_gauge if near in power or far in far_power else 26.0,
        )
        for index, (near, far) in enumerate(pairs)
    )
    assumed = {"conductors"} if length is not None else {"conductors", "length"}
    return LeadBody(
        ends=freeze(ends),
        conductors=conductors,
        carries=None,
        length=DEFAULT_LENGTH if length is None else length,
        loss=None,
        mark=None,
        mass=None,
        straight=True,
        assumed=frozenset(assumed),
    )


def _pair_contacts(first: Connector, second: Connector) -> list[tuple[str, str]]:
    if first.id == second.id:
        return [(contact, contact) for contact in first.contacts]
    near_roles = _first_usual(first)
    far_by_role = {role: contact for contact, role in _first_usual(second).items()}
    return [(contact, far_by_role[role]) for contact, role in near_roles.items() if role in far_by_role]


def _first_usual(connector: Connector) -> Mapping[str, str]:
    return next(iter(connector.usual.values()), {contact: contact for contact in connector.contacts})
