"""A second reading of leads: their ends, conductors and lengths, also of those that nobody described."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from tests.power.amounts import compute_ohms, read_amount
from tests.power.files import Shelf, Tree
from tests.power.parts import PortReading

_FUSE_OHMS = 0.005


@dataclass(frozen=True, slots=True)
class ConductorReading:
    """From one end's contact to another's; `body` holds its diode or regulator."""

    source: tuple[str, str]
    target: tuple[str, str]
    ohms: float
    body: Tree


@dataclass(frozen=True, slots=True)
class LeadReading:
    """Ends (connector, sex), where they are plugged, and conductors."""

    ends: dict[str, tuple[str, str]]
    plugged: dict[str, str]
    """End to `item.port`."""
    conductors: tuple[ConductorReading, ...]
    carries: Any
    """None where nothing is said, which is so of every lead that nobody described."""


def read_entry(entry: Any) -> tuple[Tree, dict[str, str]]:
    """A lead's entry as a mapping, and where its ends go."""
    if isinstance(entry, str):
        near, far = (word.strip() for word in entry.split(">"))
        entry = {"from": near, "to": far}
    if "ends" in entry:
        places = dict(entry["ends"])
    else:
        places = {end: entry[key] for end, key in (("a", "from"), ("b", "to")) if key in entry}
    return entry, {end: place for end, place in places.items() if place != "loose"}


def read_lead(
    entry: Tree,
    plugged: dict[str, str],
    ports: dict[str, PortReading],
    kinds: dict[str, str],
    shelf: Shelf,
    celsius: float,
) -> LeadReading:
    """A lead of a rig. `ports`: of the whole rig, by place; `kinds`: of its items."""
    body = shelf.part(entry["part"]) if "part" in entry else entry.get("lead")
    if body is None:
        return _assume_lead(entry, plugged, ports, kinds, shelf, celsius)
    length = read_amount(entry.get("length", body.get("length", "50 cm")))
    ends = {name: (end["connector"], end.get("sex", "")) for name, end in body["ends"].items()}
    listed = body.get("conductors", ())
    if listed == "straight":
        first, *others = ends
        contacts = shelf.connectors[ends[first][0]]["contacts"]
        listed = [{"from": f"{first}.{one}", "to": f"{end}.{one}"} for end in others for one in contacts]
    conductors = []
    for one in listed:
        near, far = _split(one["from"]), _split(one["to"])
        is_power = any(_is_power(side, plugged, ports) for side in (near, far))
        gauge = read_amount(one["gauge"]) if "gauge" in one else (22.0 if is_power else 28.0)
        area = read_amount(one["area"]) if "area" in one else None
        ohms = compute_ohms(gauge, area, length, celsius) + (_FUSE_OHMS if "fuse" in one else 0.0)
        conductors.append(ConductorReading(near, far, ohms, one))
    return LeadReading(ends, plugged, tuple(conductors), body.get("carries"))


def _split(text: str) -> tuple[str, str]:
    end, _, contact = text.partition(".")
    return end, contact


def _is_power(side: tuple[str, str], plugged: dict[str, str], ports: dict[str, PortReading]) -> bool:
    port = ports.get(plugged.get(side[0], ""))
    return port is not None and (side[1] in port.feeds or side[1] in port.minus)


def _assume_lead(
    entry: Tree,
    plugged: dict[str, str],
    ports: dict[str, PortReading],
    kinds: dict[str, str],
    shelf: Shelf,
    celsius: float,
) -> LeadReading:
    """Equal connectors: straight. Unequal: by the first usual pin-outs. 20 AWG from a tap or plate, 24 on USB, 22
    elsewhere, 26 for signals."""
    places = [plugged[end] for end in ("a", "b") if end in plugged]
    near, far = ports[places[0]], ports[places[-1]]
    if near.connector == far.connector:
        pairs = [(one, one) for one in shelf.connectors[near.connector]["contacts"]]
    else:
        usual: list[dict[str, str]] = [
            next(iter(shelf.connectors[port.connector].get("usual", {}).values()), {}) for port in (near, far)
        ]
        by_role = {role: contact for contact, role in usual[1].items()}
        pairs = [(contact, by_role[role]) for contact, role in usual[0].items() if role in by_role]
    is_usb = near.connector.startswith("usb-") or far.connector.startswith("usb-")
    from_tap = near.connector == "d-tap" or kinds[places[0].partition(".")[0]] in ("plate", "battery")
    gauge = 24.0 if is_usb else 20.0 if from_tap else 22.0
    length = read_amount(entry.get("length", "50 cm"))
    conductors = []
    for one, other in pairs:
        is_power = one in near.feeds or one in near.minus or other in far.feeds or other in far.minus
        ohms = compute_ohms(gauge if is_power else 26.0, None, length, celsius)
        conductors.append(ConductorReading(("a", one), ("b", other), ohms, {}))
    opposite = {"plug": "socket", "socket": "plug"}
    ends = {end: (port.connector, opposite.get(port.sex, port.sex)) for end, port in (("a", near), ("b", far))}
    return LeadReading(ends, plugged, tuple(conductors), None)


def do_mate(first: tuple[str, str], second: tuple[str, str], shelf: Shelf) -> bool:
    """Whether two (connector, sex) go together: equal or almost equal connectors, a plug into a socket."""
    connectors = first[0], second[0]
    almost = any(connectors[1 - n] in shelf.connectors[connectors[n]].get("almost", ()) for n in (0, 1))
    if connectors[0] != connectors[1] and not almost:
        return False
    sexes = [{"male": "plug", "female": "socket"}.get(sex, sex) for sex in (first[1], second[1])]
    return "" in sexes or sorted(sexes) in (["plug", "socket"], ["same", "same"])
