"""Ports, rails, bridges and cells of a part, with the defaults of the format where a figure is missing."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from rigmint.library.document import Path
from rigmint.library.scope import Scope, freeze, numbered
from rigmint.library.setting_checks import SettingChecks
from rigmint.physics.battery import stretch_curve
from rigmint.rig.choice import When
from rigmint.rig.connector import Connector, Sex
from rigmint.rig.electric import (
    MINUS,
    PLUS,
    Bridge,
    BridgeKind,
    Cell,
    Draw,
    Fuse,
    Level,
    LoadKind,
    Port,
    Rail,
    RegulatorSpec,
    Role,
    Window,
)
from rigmint.rig.quantity import Quantity

UNBOUNDED_VOLTS = 1e6
DIODE_DROP = 0.4
CLOSED_OHMS = 1e-3
SHIELD = "shield"
_REFERENCE_ENERGY = 98 * 3600.0
_REFERENCE_OHMS = 0.08
_LOWEST_SURVIVED = -0.3
_USB = Window(4.75, 5.5)
_TWELVE = Window(11.0, 17.0)
WORKS_BY_CONNECTOR = {
    "0b-2": _TWELVE,
    "d-tap": _TWELVE,
    "xlr4": _TWELVE,
    "plate-wedge": _TWELVE,
    "plate-stud": _TWELVE,
    "3pin-24v": Window(20.0, 34.0),
    "plate-wedge-26v": Window(21.0, 30.0),
    "usb-a": _USB,
    "usb-c": _USB,
    "usb-micro": _USB,
}


def build_window(value: tuple[float, float] | float | None) -> Window | None:
    """A window from a decoded range; a single value is a window of no width."""
    if value is None:
        return None
    return Window(*value) if isinstance(value, tuple) else Window(value, value)


def declared_rails(tree: Mapping[str, Any]) -> frozenset[str]:
    """The rails that a part declares; a part without a `rails` section has `main` and those its cells sit on."""
    if "rails" in tree:
        return frozenset(tree["rails"]) or frozenset({"main"})
    return frozenset({"main"} | {cell["rail"] for cell in tree.get("cells", {}).values() if "rail" in cell})


def build_rails(tree: Mapping[str, Any]) -> Mapping[str, Rail]:
    """Every declared rail; `peak` is 1.5 times the load and `start` equal to the peak where they are not stated."""
    stated = tree.get("rails", {})
    return freeze({name: _build_rail(name, stated.get(name) or {}) for name in sorted(declared_rails(tree))})


def _build_rail(name: str, body: Mapping[str, Any]) -> Rail:
    load = _build_draw(body.get("load"))
    peak = _build_draw(body.get("peak"))
    start = _build_draw(body.get("start"))
    assumed = set()
    if peak is None and load is not None:
        peak = _scale_draw(load, 1.5)
        assumed.add("peak")
    if start is None and peak is not None:
        start = peak
        assumed.add("start")
    return Rail(name, load, peak, start, frozenset(assumed))


def _build_draw(value: Quantity | None) -> Draw | None:
    return Draw(LoadKind(value.kind), value.value) if value is not None else None


def _scale_draw(draw: Draw, factor: float) -> Draw:
    amount = draw.amount / factor if draw.kind is LoadKind.RESISTANCE else draw.amount * factor
    return Draw(draw.kind, amount)


def build_ports(tree: Mapping[str, Any], rails: Mapping[str, Rail], scope: Scope) -> Mapping[str, Port]:
    """Every port whose connector is known."""
    cells = frozenset(cell.get("rail", "main") for cell in tree.get("cells", {}).values())
    ports = {}
    for name, body in tree.get("ports", {}).items():
        port = _build_port(name, body, rails, cells, scope)
        if port is not None:
            ports[name] = port
    return freeze(ports)


def _build_port(
    name: str, body: Mapping[str, Any], rails: Mapping[str, Rail], cell_rails: frozenset[str], scope: Scope
) -> Port | None:
    path: Path = ("ports", name)
    connector = scope.connector((*path, "connector"), body["connector"])
    if connector is None:
        return None
    assumed: set[str] = set()
    pins = _build_pins(body.get("pins"), connector, path, assumed, scope)
    rail = _find_rail(body.get("rail"), PLUS in pins.values(), rails, path, scope)
    # Plus first: the volts of a port that holds two supplies are those of its own rail.
    feeds = {contact: rail for contact, role in pins.items() if role == PLUS} if rail is not None else {}
    feeds |= {contact: role for contact, role in pins.items() if role in rails}
    role = _find_role(body.get("role"), rail, rails, cell_rails, assumed)
    has_power = bool(feeds) and MINUS in pins.values()
    works = build_window(body.get("works"))
    if works is None and has_power and role is not Role.OUT and connector.id in WORKS_BY_CONNECTOR:
        works = WORKS_BY_CONNECTOR[connector.id]
        assumed.add("works")
    survives = build_window(body.get("survives"))
    if survives is None and has_power:
        survives = _assume_survives(connector, works, "works" in body)
        assumed.add("survives")
    max_amps = body.get("max")
    if max_amps is None and connector.amps is not None:
        max_amps = connector.amps
        assumed.add("max")
    return Port(
        name=name,
        says=str(body.get("says", name)),
        connector=connector,
        sex=read_sex(body.get("sex")),
        pins=pins,
        rail=rail,
        role=role,
        works=works,
        survives=survives,
        max_amps=max_amps,
        speaks=scope.protocols((*path, "speaks"), body.get("speaks", ())),
        levels=_build_levels(body.get("levels", {}), pins, path, scope),
        stage=body.get("stage"),
        tag=body.get("tag"),
        isolated=bool(body.get("isolated", False)),
        offers=tuple(sorted(volts for _, volts in numbered(body.get("offers")))),
        wants=body.get("wants"),
        feeds=freeze(feeds),
        assumed=frozenset(assumed),
    )


def read_sex(word: str | None) -> Sex:
    """A connector's sex; `male` and `female` are read as plug and socket."""
    if word is None:
        return Sex.UNSTATED
    return {"male": Sex.PLUG, "female": Sex.SOCKET}.get(word) or Sex(word)


def _build_pins(value: Any, connector: Connector, path: Path, assumed: set[str], scope: Scope) -> Mapping[str, str]:
    if value is None:
        if not connector.usual:
            return freeze({})
        assumed.add("pins")
        return freeze(next(iter(connector.usual.values())))
    if isinstance(value, str):
        if scope.knows((*path, "pins"), value, connector.usual, f"usual pin-out of `{connector.id}` called"):
            return freeze(connector.usual[value])
        return freeze({})
    pins = {
        contact: role
        for contact, role in value.items()
        if scope.knows((*path, "pins", contact), contact, connector.contacts, f"contact of `{connector.id}` called")
    }
    if _has_grounded_shield(connector):
        pins.setdefault(SHIELD, MINUS)  # tied to ground at both ends, whether a file says so or not
    return freeze(pins)


def _has_grounded_shield(connector: Connector) -> bool:
    """Coax and HDMI. The shell of a USB plug is a screen: its return is the contact `gnd`."""
    if SHIELD not in connector.contacts:
        return False
    return "gnd" not in connector.contacts or any(pins.get(SHIELD) == MINUS for pins in connector.usual.values())


def _find_rail(stated: str | None, is_fed: bool, rails: Mapping[str, Rail], path: Path, scope: Scope) -> str | None:
    if stated is not None:
        return stated if scope.knows((*path, "rail"), stated, rails, "rail") else None
    if not is_fed:
        return None
    if len(rails) == 1:
        return next(iter(rails))
    if "main" in rails:
        return "main"
    scope.fault(path, "file:missing-key", f"`rail` must be stated: its plus could join {_list(rails)}")
    return None


def _list(names: Mapping[str, object]) -> str:
    return " or ".join(f"`{name}`" for name in names)


def _find_role(
    stated: str | None,
    rail: str | None,
    rails: Mapping[str, Rail],
    cell_rails: frozenset[str],
    assumed: set[str],
) -> Role:
    if stated is not None:
        return Role(stated)
    assumed.add("role")
    if rail is not None and rails[rail].load is not None and rail not in cell_rails:
        return Role.IN
    return Role.OUT if cell_rails else Role.EITHER


def _assume_survives(connector: Connector, works: Window | None, works_stated: bool) -> Window | None:
    if connector.id == "usb-c" and not works_stated:
        return Window(_LOWEST_SURVIVED, _USB.high)
    return Window(_LOWEST_SURVIVED, works.high * 1.1) if works is not None else None


def _build_levels(levels: Mapping[str, Any], pins: Mapping[str, str], path: Path, scope: Scope) -> Mapping[str, Level]:
    signals = set(pins.values())
    return freeze(
        {
            name: Level(body.get("gives"), body.get("takes"), body.get("as"), build_window(body.get("survives")))
            for name, body in levels.items()
            if scope.knows((*path, "levels", name), name, signals, "signal of this port called")
        }
    )


def build_bridges(
    tree: Mapping[str, Any], rails: Mapping[str, Rail], checks: SettingChecks, scope: Scope
) -> tuple[Bridge, ...]:
    """Every bridge between two declared rails."""
    bridges = []
    for index, body in numbered(tree.get("bridges")):
        path: Path = ("bridges", index)
        ends_known = [scope.knows((*path, key), body[key], rails, "rail") for key in ("from", "to")]
        if not all(ends_known):
            continue
        kind = BridgeKind(body["by"])
        if kind is BridgeKind.REGULATOR and "out" not in body:
            scope.fault(path, "file:missing-key", "a regulator needs `out`, the volts that it gives")
            continue
        bridges.append(_build_bridge(index, body, kind, checks.when(body.get("when"), path)))
    return tuple(bridges)


def _build_bridge(index: int, body: Mapping[str, Any], kind: BridgeKind, when: When) -> Bridge:
    return Bridge(
        index=index,
        source=body["from"],
        target=body["to"],
        kind=kind,
        regulator=build_regulator(body) if kind is BridgeKind.REGULATOR else None,
        drop=body.get("drop", DIODE_DROP),
        resistance=body.get("resistance", CLOSED_OHMS),
        max_amps=body.get("max"),
        fuse=build_fuse(body.get("fuse")),
        when=when,
    )


def build_regulator(body: Mapping[str, Any]) -> RegulatorSpec:
    """A regulator's figures; `takes` reaches from 0.5 V above its output, or from 1 V where it also steps up."""
    out, lifts = float(body["out"]), bool(body.get("lifts", False))
    takes = build_window(body.get("takes"))
    assumed = {key for key in ("efficiency", "takes", "blocks") if key not in body}
    return RegulatorSpec(
        out=out,
        max_amps=body.get("max"),
        efficiency=body.get("efficiency", 0.9),
        takes=takes or Window(1.0 if lifts else out + 0.5, UNBOUNDED_VOLTS),
        lifts=lifts,
        blocks=body.get("blocks"),
        assumed=frozenset(assumed),
    )


def build_fuse(value: Any) -> Fuse | None:
    """A fuse from a current, or from `{amps, inside}`."""
    if value is None:
        return None
    if isinstance(value, Mapping):
        return Fuse(value["amps"], bool(value.get("inside", False)))
    return Fuse(float(value))


def build_cells(tree: Mapping[str, Any], rails: Mapping[str, Rail], scope: Scope) -> Mapping[str, Cell]:
    """Every cell on a declared rail."""
    cells = {}
    for name, body in tree.get("cells", {}).items():
        path: Path = ("cells", name)
        rail = body.get("rail") or _find_rail(None, True, rails, path, scope)
        if rail is not None and scope.knows((*path, "rail"), rail, rails, "rail"):
            cells[name] = _build_cell(name, rail, body)
            _check_curve(cells[name], path, scope)
    return freeze(cells)


def _check_curve(cell: Cell, path: Path, scope: Scope) -> None:
    """A curve must run from 0 to 1 left, with volts that never rise as the battery empties."""
    if cell.curve is not None:
        try:
            stretch_curve(cell.volts.low, cell.volts.high, cell.curve)
        except ValueError as error:
            scope.fault((*path, "curve"), "file:bad-value", f"`curve`: {error}")


def _build_cell(name: str, rail: str, body: Mapping[str, Any]) -> Cell:
    volts = build_window(body["volts"]) or Window(0.0, 0.0)
    energy = body.get("energy")
    max_amps = body.get("max")
    assumed = {key for key in ("nominal", "resistance", "charge") if key not in body}
    if energy is not None and "chemistry" not in body:
        assumed.add("chemistry")
    resistance = body.get("resistance")
    if resistance is None:
        resistance = _REFERENCE_OHMS * (_REFERENCE_ENERGY / energy if energy else 1.0)
    trips = body.get("trips")
    if trips is None and max_amps is not None:
        trips = 1.5 * max_amps
        assumed.add("trips")
    charge = body.get("charge", "never")
    return Cell(
        name=name,
        rail=rail,
        volts=volts,
        nominal=body.get("nominal", (volts.low + volts.high) / 2),
        resistance=resistance,
        energy=energy,
        max_amps=max_amps,
        trips=math.inf if trips == "none" else trips,
        charge=0.0 if charge == "never" else charge,
        chemistry=str(body.get("chemistry", "other")),
        curve=_build_curve(body.get("curve")),
        spikes=body.get("spikes"),
        dips=body.get("dips"),
        assumed=frozenset(assumed),
    )


def _build_curve(value: Mapping[str, float] | None) -> tuple[tuple[float, float], ...] | None:
    if value is None:
        return None
    return tuple(sorted(((float(fraction), volts) for fraction, volts in value.items()), reverse=True))
