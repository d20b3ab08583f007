"""Wrong parts for each part that a rig uses: another voltage class, another pin-out, another gear, a heavier one.

Each starts from the right part by `like:`, and states one thing otherwise. A mistake puts it in the place of the right
one: the wrong battery out of the case, a regulator set wrong, a monitor of a make that is wired plus first.
"""

from __future__ import annotations

from collections.abc import Iterator

from tests.power.amounts import read_amount, read_range
from tests.power.files import Shelf, Tree
from tests.power.parts import read_ports

_POWERED = frozenset(
    {
        "camera",
        "monitor",
        "sender",
        "receiver",
        "motor_driver",
        "light",
        "recorder",
        "range_finder",
        "desk",
        "converter",
    }
)
_SWAPPED = {"plus": "minus", "minus": "plus"}


def name_wrong(part_id: str, what: str) -> str:
    """The id of a wrong part."""
    return f"seeding/{part_id.replace('/', '-')}-{what}"


def write_wrong_parts(shelf: Shelf, used: set[str]) -> str:
    """A part file."""
    from tests.seeding.base import write_value

    lines = ["parts:"]
    for part_id in sorted(used):
        part = shelf.part(part_id)
        for what, body in _list_wrong(part, shelf):
            whole = {
                "rigmint_part": "1",
                "id": name_wrong(part_id, what),
                "name": f"{part['name']}, {what.replace('-', ' ')}",
                "kind": part["kind"],
                "like": part_id,
                "figures": "made up for fault seeding",
                **body,
            }
            lines.append(f"  - {write_value(whole)}")
    return "\n".join(lines) + "\n"


def _list_wrong(part: Tree, shelf: Shelf) -> Iterator[tuple[str, Tree]]:
    kind = part["kind"]
    if kind in ("battery", "supply"):
        for what, factor in (("twice-the-volts", 2.0), ("half-the-volts", 0.5)):
            yield what, {"cells": {name: _scale_cell(cell, factor) for name, cell in part.get("cells", {}).items()}}
    if any(bridge["by"] == "regulator" for bridge in part.get("bridges", ())):
        for what, factor in (("set-high", 2.0), ("set-low", 0.5)):
            yield what, {"bridges": [_set_regulator(bridge, factor) for bridge in part["bridges"]]}
        yield "unblocked", {"bridges": [_unblock(bridge) for bridge in part["bridges"]]}
    if kind in _POWERED:
        yield from _list_wrong_inputs(part, shelf)
    if "drive" in part and "torque" in part["drive"]:
        drive = part["drive"]
        yield "fine-gear", {"drive": {"module": "0.5 mm"}}
        yield "no-torque", {"drive": {"torque": f"{read_amount(drive['torque']) * 0.1:.4f} N*m"}}
        yield "rough", {"drive": {"calibration": "4 N*m"}}
    if kind == "lens" and part.get("rings"):
        yield "no-stops", {"rings": {name: {"stops": "false"} for name in part["rings"]}}
        yield "stiff", {"rings": {name: {"torque": "3 N*m"} for name in part["rings"]}}
        yield "geared-fine", {"rings": {name: {"module": "0.5 mm"} for name in part["rings"]}}
    if kind in ("lens", "camera", "matte_box") and "mass" in part:
        yield "heavy", {"mass": f"{read_amount(part['mass']) * 12:.2f} kg"}
    if "payload" in part:
        yield "small", {"payload": {"min": "0 kg", "max": f"{read_amount(part['payload']['max']) * 0.08:.3f} kg"}}
    if kind == "head":
        yield "goes-on", {"on_loss": "continue"}
    if part.get("radios"):
        radios = {
            name: {"reach": dict.fromkeys(radio["reach"], "2 m")}
            for name, radio in part["radios"].items()
            if "reach" in radio
        }
        yield "short-range", {"radios": radios}


def _list_wrong_inputs(part: Tree, shelf: Shelf) -> Iterator[tuple[str, Tree]]:
    ports = {name: one for name, one in read_ports(part, shelf).items() if one.is_input and one.has_power and one.works}
    if not ports:
        return
    yield "for-5-volts", {"ports": {name: {"works": "4.5 to 5.5 V", "survives": "-0.3 to 6 V"} for name in ports}}
    yield "for-24-volts", {"ports": {name: {"works": "20 to 34 V", "survives": "-36 to 40 V"} for name in ports}}
    yield "narrow", {"ports": {name: {"works": "6.5 to 8.4 V", "survives": "-0.3 to 36 V"} for name in ports}}
    turned = {
        name: {contact: _SWAPPED.get(role, role) for contact, role in one.pins.items()} for name, one in ports.items()
    }
    yield "plus-first", {"ports": {name: {"pins": pins} for name, pins in turned.items()}}
    bare = {
        name: {"pins": pins, "survives": f"-0.3 to {one.works[1] * 1.1:.2f} V"}
        for (name, pins), one in zip(turned.items(), ports.values(), strict=True)
        if one.works
    }
    yield "plus-first-unprotected", {"ports": bare}


def _scale_cell(cell: Tree, factor: float) -> Tree:
    low, high = read_range(cell["volts"])
    scaled = {"volts": f"{low * factor:.2f} to {high * factor:.2f} V", "chemistry": "other"}
    if "nominal" in cell:
        scaled["nominal"] = f"{read_amount(cell['nominal']) * factor:.2f} V"
    return scaled


def _set_regulator(bridge: Tree, factor: float) -> Tree:
    if bridge["by"] != "regulator":
        return dict(bridge)
    return {**bridge, "out": f"{read_amount(bridge['out']) * factor:.2f} V"}


def _unblock(bridge: Tree) -> Tree:
    return {**bridge, "blocks": "false"} if bridge["by"] == "regulator" else dict(bridge)
