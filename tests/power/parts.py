"""A second reading of part files: the pins, rails and figures that a netlist needs, with the format's defaults."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from tests.power.amounts import read_amount, read_range
from tests.power.files import Shelf, Tree

_TWELVE = (11.0, 17.0)
_FIVE = (4.75, 5.5)
_WORKS = {
    **dict.fromkeys(("0b-2", "d-tap", "xlr4", "plate-wedge", "plate-stud"), _TWELVE),
    **dict.fromkeys(("usb-a", "usb-c", "usb-micro"), _FIVE),
    "3pin-24v": (20.0, 34.0),
    "plate-wedge-26v": (21.0, 30.0),
}
_LEAST_WINDOW = 0.5


@dataclass(frozen=True, slots=True)
class PortReading:
    """A port: contact to what it is for, the rail of each feed contact, and the window in which it works."""

    connector: str
    sex: str
    pins: dict[str, str]
    feeds: dict[str, str]
    minus: tuple[str, ...]
    works: tuple[float, float] | None
    is_input: bool
    isolated: bool
    speaks: tuple[str, ...]
    offers: tuple[float, ...]
    wants: float | None
    pinned: bool

    @property
    def has_power(self) -> bool:
        """Whether it has a feed and a minus."""
        return bool(self.feeds) and bool(self.minus)


def list_rails(part: Tree) -> tuple[str, ...]:
    """The rails of a part; `main`, and those of its cells, where it states none."""
    if "rails" in part:
        return tuple(part["rails"]) or ("main",)
    return tuple({"main": 0, **{cell["rail"]: 0 for cell in part.get("cells", {}).values() if "rail" in cell}})


def plus_rail(part: Tree, stated: str | None) -> str:
    """The rail that plus joins where a port or a cell does not say."""
    rails = list_rails(part)
    return stated or (rails[0] if len(rails) == 1 else "main")


def read_ports(part: Tree, shelf: Shelf) -> dict[str, PortReading]:
    """Every port of a part."""
    return {name: _read_port(part, body, shelf) for name, body in part.get("ports", {}).items()}


def _read_port(part: Tree, body: Tree, shelf: Shelf) -> PortReading:
    connector = shelf.connectors[body["connector"]]
    usual: dict[str, dict[str, str]] = connector.get("usual", {})
    stated = body.get("pins")
    if stated is None:
        pins = dict(next(iter(usual.values()), {}))
    else:
        pins = dict(usual[stated]) if isinstance(stated, str) else dict(stated)
    # Coax and HDMI shields are tied to ground at both ends: those whose usual pin-out says so.
    if any(pinout.get("shield") == "minus" for pinout in usual.values()):
        pins.setdefault("shield", "minus")
    rails = list_rails(part)
    feeds = {contact: role for contact, role in pins.items() if role in rails}
    if "plus" in pins.values() or "rail" in body:
        rail = plus_rail(part, body.get("rail"))
        feeds |= {contact: rail for contact, role in pins.items() if role == "plus"}
    minus = tuple(contact for contact, role in pins.items() if role == "minus")
    is_input = _find_role(part, body, feeds) != "out"
    works = read_range(body["works"]) if "works" in body else None
    if works is None and is_input and feeds and minus:
        works = _WORKS.get(body["connector"])
    return PortReading(
        connector=body["connector"],
        sex=str(body.get("sex", "")),
        pins=pins,
        feeds=feeds,
        minus=minus,
        works=works,
        is_input=is_input,
        isolated=body.get("isolated") in ("true", "yes", "on"),
        speaks=tuple(_as_list(body.get("speaks"))),
        offers=tuple(read_amount(text) for text in body.get("offers", ())),
        wants=read_amount(body["wants"]) if "wants" in body else None,
        pinned=stated is not None,
    )


def _find_role(part: Tree, body: Tree, feeds: dict[str, str]) -> str:
    if "role" in body:
        return str(body["role"])
    celled = {plus_rail(part, cell.get("rail")) for cell in part.get("cells", {}).values()}
    rail = next(iter(reversed(feeds.values())), None)
    if rail is not None and rail not in celled and "load" in (part.get("rails", {}).get(rail) or {}):
        return "in"
    return "out" if celled else "either"


def _as_list(value: Any) -> list[str]:
    if value is None:
        return []
    return [value] if isinstance(value, str) else list(value)


def find_window_low(part: Tree, ports: dict[str, PortReading], rail: str) -> float:
    """The lower end of the window of a load on a rail."""
    rails = {rail}
    bridges = [bridge for bridge in part.get("bridges", ()) if bridge["by"] != "regulator"]
    for _ in bridges:
        for bridge in bridges:
            if bridge["to"] in rails:
                rails.add(bridge["from"])
            if bridge["from"] in rails and bridge["by"] != "diode":
                rails.add(bridge["to"])
    lows = [p.works[0] for p in ports.values() if p.is_input and p.works and rails & set(p.feeds.values())]
    if not lows:
        fed = [b for b in part.get("bridges", ()) if b["by"] == "regulator" and b["to"] in rails]
        lows = [0.9 * read_amount(bridge["out"]) for bridge in fed]
    if not lows:
        cells = part.get("cells", {}).values()
        lows = [read_range(cell["volts"])[0] for cell in cells if plus_rail(part, cell.get("rail")) in rails]
    return max(min(lows, default=_LEAST_WINDOW), _LEAST_WINDOW)
