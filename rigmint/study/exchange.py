"""A rig with another part in the place of an item's: its leads, docks, links and settings are handed over."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

from rigmint.rig.axes import find_axis_holders
from rigmint.rig.device import Radio
from rigmint.rig.electric import Port, Role
from rigmint.rig.part import Part
from rigmint.rig.rig import Lead, PortRef, Rig, SettingState, Setup


@dataclass(frozen=True, slots=True)
class Exchange:
    """The rig after the exchange; `renamed`: the name of a port or radio to its new one, where they differ;
    `lacking`: what the part does not have, in words (then there is no rig); `dropped`: stated settings it has not."""

    rig: Rig | None
    renamed: Mapping[str, str]
    lacking: tuple[str, ...]
    dropped: tuple[str, ...]


def exchange_part(rig: Rig, name: str, part: Part) -> Exchange:
    """Put `part` in the place of an item's part. Every plug that sits on the item must find a socket of the same
    connector, sex and direction of power; every radio one that speaks the same; every ring, joint and other axis that
    is used one of its name."""
    old = rig.items[name].part
    used = _list_used(rig, name)
    names = _pair_up(
        [
            *(
                (a, b, _rate_ports(old.ports[a], port))
                for a in used
                for b, port in part.ports.items()
                if a in old.ports
            ),
            *((a, b, _rate_radios(old.radios[a], r)) for a in used for b, r in part.radios.items() if a in old.radios),
        ]
    )
    lacking = [_say_lacking(old, one) for one in used if one not in names]
    lacking += [f"it has no {axis}" for axis in _list_axes(rig, name) if not find_axis_holders(axis, {name: part})]
    renamed = {before: after for before, after in sorted(names.items()) if before != after}
    if lacking:
        return Exchange(None, renamed, tuple(lacking), ())
    stated = {
        setting
        for setup in rig.setups.values()
        for (item, setting), state in setup.settings.items()
        if item == name and state.stated not in ("default", "nowhere")
    }
    return Exchange(_rebuild(rig, name, part, names), renamed, (), tuple(sorted(stated - set(part.settings))))


def _list_used(rig: Rig, name: str) -> list[str]:
    """The ports and radios of an item at which something ends."""
    refs: Iterable[PortRef] = (
        *(ref for lead in rig.leads.values() for ref in lead.plugged.values()),
        *(ref for dock in rig.docks for ref in (dock.first, dock.second)),
        *(ref for link in rig.links.values() for ref in link.radios),
    )
    return sorted({ref.port for ref in refs if ref.item == name})


def _list_axes(rig: Rig, name: str) -> list[str]:
    """The axes of an item that somebody is meant to have, or on which a motor sits."""
    meant = {axis for setup in rig.setups.values() for axis in setup.who if axis.partition(".")[0] == name}
    fitted = {fitting.ring for fitting in rig.fitted.values() if fitting.lens == name}
    return sorted({axis.partition(".")[2] for axis in meant} | fitted)


def _rate_ports(old: Port, new: Port) -> int | None:
    """How well one port stands for another; None where a plug of the one does not go into the other."""
    if old.connector.id != new.connector.id or old.sex is not new.sex:
        return None
    if old.carries_power and not (new.carries_power and _has_role_of(old, new)):
        return None
    shared = len(set(old.speaks) & set(new.speaks))
    alike = (old.name == new.name, old.says == new.says, old.tag == new.tag, old.pins == new.pins)
    return 1 + 4 * shared + sum(alike)


def _has_role_of(old: Port, new: Port) -> bool:
    """Whether power goes the same way through both, as far as their makers say."""
    return old.role is new.role or Role.EITHER in (old.role, new.role)


def _rate_radios(old: Radio, new: Radio) -> int | None:
    shared = len(set(old.speaks) & set(new.speaks))
    return 4 * shared + (old.name == new.name) if shared else None


def _pair_up(rated: Iterable[tuple[str, str, int | None]]) -> dict[str, str]:
    """Old name to new name: as many pairs as can be made, and of those pairings the one that agrees best."""
    import networkx

    graph: networkx.Graph[tuple[str, str]] = networkx.Graph()
    for before, after, weight in rated:
        if weight is not None:
            graph.add_edge(("old", before), ("new", after), weight=weight)
    pairs = (dict(pair) for pair in networkx.max_weight_matching(graph, maxcardinality=True))
    return {pair["old"]: pair["new"] for pair in pairs}


def _say_lacking(old: Part, name: str) -> str:
    port = old.ports.get(name)
    if port is None:
        return f"no radio of it stands for {name}"
    way = f", {port.role.value}" if port.carries_power else ""
    return f"no port of it stands for {name} ({port.connector.name}, {port.sex.value}{way})"


def _rebuild(rig: Rig, name: str, part: Part, names: Mapping[str, str]) -> Rig:
    item = rig.items[name]
    rides = part.rides if item.rides == item.part.rides else item.rides
    items = {**rig.items, name: replace(item, part=part, rides=rides)}

    def move(ref: PortRef) -> PortRef:
        return PortRef(name, names[ref.port]) if ref.item == name else ref

    def move_place(place: str) -> str:
        owner, _, port = place.partition(".")
        return f"{name}.{names.get(port, port)}" if owner == name and port else place

    return replace(
        rig,
        items=items,
        leads={label: _move_lead(lead, move) for label, lead in rig.leads.items()},
        docks=tuple(replace(dock, first=move(dock.first), second=move(dock.second)) for dock in rig.docks),
        links={key: replace(link, radios=tuple(move(ref) for ref in link.radios)) for key, link in rig.links.items()},
        setups={key: _move_settings(setup, name, part) for key, setup in rig.setups.items()},
        marked={move_place(place): text for place, text in rig.marked.items()},
        tied=frozenset(move_place(place) for place in rig.tied),
    )


def _move_lead(lead: Lead, move: Callable[[PortRef], PortRef]) -> Lead:
    return replace(lead, plugged={end: move(ref) for end, ref in lead.plugged.items()})


def _move_settings(setup: Setup, name: str, part: Part) -> Setup:
    """What was stated stays stated where the new part takes the value; the rest is as the new part has it."""
    states = {key: state for key, state in setup.settings.items() if key[0] != name}
    for setting in part.settings.values():
        state = setup.settings.get((name, setting.name))
        is_kept = state is not None and state.stated not in ("default", "nowhere")
        if state is not None and is_kept and (not setting.values or state.value in setting.values):
            states[name, setting.name] = state
        else:
            stated = "default" if setting.default is not None else "nowhere"
            states[name, setting.name] = SettingState(setting.default, stated)
    return replace(setup, settings=states)
