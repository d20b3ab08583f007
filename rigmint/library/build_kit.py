"""The kit and its wiring: items, docks, leads, links."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from rigmint.library.build_lead import assume_lead, build_lead_body
from rigmint.library.document import Path
from rigmint.library.rig_scope import RigScope
from rigmint.library.scope import Scope, as_tuple, freeze, numbered
from rigmint.rig.electric import Port
from rigmint.rig.lead import Conductor, EndContact, LeadBody
from rigmint.rig.part import Part
from rigmint.rig.place import end_place
from rigmint.rig.rig import Dock, Item, Lead, Link, PortRef

MAX_ITEMS = 2_000
LOOSE = "loose"
SHORT = "written in one line"
POWER_GAUGE = 22.0
SIGNAL_GAUGE = 28.0
_TAP_KINDS = frozenset({"plate", "battery"})


def build_items(tree: Mapping[str, Any], scope: RigScope) -> dict[str, Item]:
    """Every item whose part is known."""
    kit = tree.get("kit", {})
    if len(kit) > MAX_ITEMS:
        scope.fault(("kit",), "file:too-many", f"more than {MAX_ITEMS} items, the most that is read")
        return {}
    items = {}
    for name, body in kit.items():
        scope.note(name, ("kit", name))
        is_short = isinstance(body, str)
        item = _build_item(name, {"part": body} if is_short else body, scope, is_short=is_short)
        if item is not None:
            items[name] = item
            scope.broken.discard(name)
    return items


def _build_item(name: str, body: Mapping[str, Any], scope: RigScope, *, is_short: bool) -> Item | None:
    part = scope.part(("kit", name), body["part"])
    if part is None:
        return None
    if part.lead is not None:
        scope.fault(("kit", name), "file:wrong-kind", f"`{part.id}` is a lead: it stands under `leads`")
        return None
    return Item(
        name=name,
        part=part,
        asset=body.get("asset"),
        firmware=body.get("firmware"),
        rides=body.get("rides", part.rides),
        states_rides="rides" in body or "rides" not in part.assumed,
        bond=body.get("bond") in (True, "yes", "on"),
        watch=body.get("for"),
        setups=as_tuple(body["in"]) if "in" in body else None,
        is_short=is_short,
    )


def build_docks(tree: Mapping[str, Any], items: Mapping[str, Item], scope: RigScope) -> tuple[Dock, ...]:
    """Every dock whose two ports are known."""
    docks = []
    for index, entry in numbered(tree.get("docks")):
        path: Path = ("docks", index)
        if isinstance(entry, str):
            ends, setups = scope.split_mate(path, entry), None
        else:
            ends = (entry["from"], entry["to"])
            setups = as_tuple(entry["in"]) if "in" in entry else None
        if ends is None:
            continue
        first, second = (scope.port(path, place, items) for place in ends)
        if first is not None and second is not None:
            scope.note(f"dock:{index}", path)
            docks.append(Dock(index, first, second, setups))
    return tuple(docks)


def build_leads(tree: Mapping[str, Any], items: Mapping[str, Item], scope: RigScope) -> dict[str, Lead]:
    """Every lead whose description and ends are known."""
    leads = {}
    taken = {name.casefold() for name in tree.get("kit", {})}
    for label, entry in tree.get("leads", {}).items():
        path: Path = ("leads", label)
        scope.note(label, path)
        if label.casefold() in taken:
            says = f"`{label}` is the name of another lead or an item, in upper or lower case: labels must differ"
            scope.fault(path, "file:bad-value", says)
        taken.add(label.casefold())
        lead = _build_lead(label, entry, items, scope)
        if lead is not None:
            leads[label] = lead
    return leads


def _build_lead(label: str, entry: Any, items: Mapping[str, Item], scope: RigScope) -> Lead | None:
    path: Path = ("leads", label)
    if isinstance(entry, str):
        ends = scope.split_mate(path, entry)
        if ends is None:
            return None
        entry = {"from": ends[0], "to": ends[1], SHORT: True}
    part: Part | None = None
    body: LeadBody | None = None
    if "part" in entry:
        part = scope.part((*path, "part"), entry["part"])
        if part is None:
            return None
        body = part.lead
        if body is None:
            scope.fault((*path, "part"), "file:wrong-kind", f"`{part.id}` is a {part.kind}, not a lead")
            return None
    elif "lead" in entry:
        inner = Scope(scope.document, scope.faults, scope.catalogue.tokens)
        body = build_lead_body(entry["lead"], (*path, "lead"), inner)
        if body is None:
            return None
    plugged = _read_ends(label, entry, body, items, scope)
    if plugged is None:
        return None
    if body is None:
        return _assume(label, entry, plugged, items, scope)
    ports = {end: items[ref.item].part.ports[ref.port] for end, ref in plugged.items()}
    body = replace(body, conductors=tuple(_fill_gauge(conductor, ports) for conductor in body.conductors))
    assumed = body.assumed - {"length"} if "length" in entry else body.assumed
    loose = frozenset(body.ends) - frozenset(plugged)
    return _finish(label, entry, body, part, plugged, loose, assumed)


def _finish(
    label: str,
    entry: Mapping[str, Any],
    body: LeadBody,
    part: Part | None,
    plugged: Mapping[str, PortRef],
    loose: frozenset[str],
    assumed: frozenset[str],
) -> Lead:
    return Lead(
        label=label,
        body=body,
        part=part,
        plugged=freeze(plugged),
        loose=loose,
        length=entry.get("length", body.length),
        mark=entry.get("mark", body.mark),
        asset=entry.get("asset"),
        setups=as_tuple(entry["in"]) if "in" in entry else None,
        is_short=SHORT in entry,
        names_ends="ends" in entry,
        assumed=assumed,
    )


def _read_ends(
    label: str, entry: Mapping[str, Any], body: LeadBody | None, items: Mapping[str, Item], scope: RigScope
) -> dict[str, PortRef] | None:
    """End to port; None after recording what is wrong."""
    path: Path = ("leads", label)
    if "ends" in entry:
        named = {end: (place, (*path, "ends", end)) for end, place in entry["ends"].items()}
    else:
        named = {end: (entry[key], (*path, key)) for end, key in (("a", "from"), ("b", "to")) if key in entry}
    if "ends" in entry and ("from" in entry or "to" in entry):
        scope.fault(path, "file:bad-value", "a lead is plugged by `from` and `to`, or by `ends`, not by both")
        return None
    if body is None and set(named) != {"a", "b"}:
        scope.fault(path, "file:missing-key", "a lead with `ends` needs `part` or `lead`, which names them")
        return None
    plugged: dict[str, PortRef] = {}
    is_whole = True
    for end, (place, where) in named.items():
        if body is not None and end not in body.ends:
            listed = ", ".join(f"`{name}`" for name in body.ends)
            says = f"this lead has no end `{end}`; it has {listed}: name them under `ends`"
            scope.fault(where, "file:unknown-name", says)
            is_whole = False
            continue
        scope.note(end_place(label, end), where)
        if place == LOOSE:
            continue
        ref = scope.port(where, place, items)
        if ref is None:
            is_whole = False
        else:
            plugged[end] = ref
    return plugged if is_whole else None


def _assume(
    label: str, entry: Mapping[str, Any], plugged: dict[str, PortRef], items: Mapping[str, Item], scope: RigScope
) -> Lead | None:
    if not plugged:
        scope.fault(("leads", label), "file:missing-key", "a lead with both ends loose needs `part` or `lead`")
        return None
    ports = {end: items[ref.item].part.ports[ref.port] for end, ref in plugged.items()}
    near = ports.get("a") or ports["b"]
    far = ports.get("b") or near
    first_item = items[(plugged.get("a") or plugged["b"]).item]
    from_tap = first_item.part.kind in _TAP_KINDS or near.connector.id == "d-tap"
    body = assume_lead(near, far, entry.get("length"), from_tap=from_tap)
    loose = frozenset(body.ends) - frozenset(plugged)
    return _finish(label, entry, body, None, plugged, loose, body.assumed)


def _fill_gauge(conductor: Conductor, ports: Mapping[str, Port]) -> Conductor:
    """A conductor of no stated gauge is a power wire where it meets a feed or a minus, else a signal wire."""
    if conductor.gauge is not None or conductor.area is not None:
        return conductor
    is_power = any(_is_power(contact, ports) for contact in (conductor.source, conductor.target))
    return replace(conductor, gauge=POWER_GAUGE if is_power else SIGNAL_GAUGE)


def _is_power(contact: EndContact, ports: Mapping[str, Port]) -> bool:
    port = ports.get(contact.end)
    return port is not None and (contact.contact in port.feeds or contact.contact in port.minus_contacts)


def build_links(tree: Mapping[str, Any], items: Mapping[str, Item], scope: RigScope) -> dict[str, Link]:
    """Every link of which at least two radios are known."""
    links = {}
    for name, body in tree.get("links", {}).items():
        path: Path = ("links", name)
        scope.note(f"link:{name}", path)
        found = [scope.radio((*path, "between", index), place, items) for index, place in numbered(body["between"])]
        radios = tuple(ref for ref in found if ref is not None)
        if len(radios) == len(body["between"]):
            setups = as_tuple(body["in"]) if "in" in body else None
            links[name] = Link(name, radios, body.get("distance"), body.get("channel"), setups)
    return links
