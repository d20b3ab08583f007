"""Mistakes of the workshop: what is soldered wrong inside a lead."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from tests.power.files import Tree
from tests.seeding.base import Base
from tests.seeding.kinds.kind import Kind, Site, find_body, rewire


def _side(base: Base, label: str, text: str) -> str:
    """What a conductor's end is for, at the port where it is plugged: feed, minus, signal, or nothing."""
    end, _, contact = text.partition(".")
    place = base.leads[label][1].plugged.get(end)
    port = base.ports.get(place) if place is not None else None
    if port is None:
        return "nothing"
    if contact in port.feeds or port.pins.get(contact) == "plus":
        return "feed"
    if contact in port.minus:
        return "minus"
    return "signal" if contact in port.pins else "nothing"


def _list_leads(base: Base) -> Iterator[tuple[str, list[Tree]]]:
    for label in base.leads:
        yield label, find_body(base, label)["conductors"]


def _swap(base: Base) -> Iterator[Site]:
    for label, wires in _list_leads(base):
        for one, other in combinations(range(len(wires)), 2):
            if wires[one]["to"].partition(".")[0] != wires[other]["to"].partition(".")[0]:
                continue
            if "regulator" in wires[one] or "regulator" in wires[other]:
                continue
            crossed = [dict(wire) for wire in wires]
            crossed[one]["to"], crossed[other]["to"] = wires[other]["to"], wires[one]["to"]
            yield (
                f"{label}: {wires[one]['from']} and {wires[other]['from']} change places",
                rewire(base, label, crossed),
            )


def _swap_feed(base: Base) -> Iterator[Site]:
    for label, wires in _list_leads(base):
        for one, other in combinations(range(len(wires)), 2):
            roles = {_side(base, label, wires[n]["to"]) for n in (one, other)}
            same_end = wires[one]["to"].partition(".")[0] == wires[other]["to"].partition(".")[0]
            if roles == {"feed", "minus"} and same_end and "regulator" not in wires[one] | wires[other]:
                crossed = [dict(wire) for wire in wires]
                crossed[one]["to"], crossed[other]["to"] = wires[other]["to"], wires[one]["to"]
                yield f"{label}: plus and minus change places", rewire(base, label, crossed)


def _break(role: str) -> Kind:
    def sites(base: Base) -> Iterator[Site]:
        for label, wires in _list_leads(base):
            broken = [n for n, wire in enumerate(wires) if _side(base, label, wire["to"]) == role]
            for n in broken:
                rest = [wire for number, wire in enumerate(wires) if number != n]
                if rest:
                    yield f"{label}: {wires[n]['from']} to {wires[n]['to']} is broken", rewire(base, label, rest)

    return Kind(f"break a {role} conductor", "electrical" if role != "signal" else "signal", sites)


def _bridge(base: Base) -> Iterator[Site]:
    """A whisker of solder between two neighbours of one plug."""
    for label, wires in _list_leads(base):
        contacts = list(dict.fromkeys(wire["to"] for wire in wires if "regulator" not in wire))
        for one, other in combinations(contacts, 2):
            if one.partition(".")[0] == other.partition(".")[0]:
                bridge = {"from": one, "to": other, "gauge": "28 AWG"}
                yield f"{label}: {one} and {other} touch", rewire(base, label, [*wires, bridge])


def _feed_into_signal(base: Base) -> Iterator[Site]:
    for label, wires in _list_leads(base):
        feeds = [
            n for n, wire in enumerate(wires) if _side(base, label, wire["from"]) == "feed" and "regulator" not in wire
        ]
        signals = [wire["to"] for wire in wires if _side(base, label, wire["to"]) == "signal"]
        for n in feeds:
            for contact in signals:
                if contact.partition(".")[0] == wires[n]["to"].partition(".")[0]:
                    crossed = [dict(wire) for wire in wires]
                    crossed[n]["to"] = contact
                    yield f"{label}: the plus is soldered to {contact}", rewire(base, label, crossed)


def _thin(base: Base) -> Iterator[Site]:
    for label, wires in _list_leads(base):
        if any(_side(base, label, wire["to"]) == "feed" for wire in wires):
            thin = [{key: body for key, body in wire.items() if key != "area"} | {"gauge": "28 AWG"} for wire in wires]
            yield f"{label} is made of 28 AWG", rewire(base, label, thin)


def _long(base: Base) -> Iterator[Site]:
    for label, wires in _list_leads(base):
        if any(_side(base, label, wire["to"]) == "feed" for wire in wires):
            yield f"{label} is 40 m long", rewire(base, label, wires, length="40 m")


def _diode(base: Base) -> Iterator[Site]:
    for label, wires in _list_leads(base):
        for n, wire in enumerate(wires):
            if _side(base, label, wire["to"]) == "feed" and not {"regulator", "diode"} & set(wire):
                turned = {**wire, "from": wire["to"], "to": wire["from"], "diode": "0.4 V"}
                yield f"{label}: a diode against the feed", rewire(base, label, [*wires[:n], turned, *wires[n + 1 :]])


KINDS = (
    Kind("swap two conductors", "electrical", _swap),
    Kind("cross plus and minus", "electrical", _swap_feed),
    _break("feed"),
    _break("minus"),
    _break("signal"),
    Kind("solder bridge", "electrical", _bridge),
    Kind("plus on a signal contact", "electrical", _feed_into_signal),
    Kind("lead too thin", "electrical", _thin),
    Kind("lead too long", "electrical", _long),
    Kind("diode turned round", "electrical", _diode),
)
