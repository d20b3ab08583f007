"""Mistakes of the case: the wrong device, or the right one built or set otherwise."""

from __future__ import annotations

from collections.abc import Iterator

from tests.power.parts import read_ports
from tests.seeding.base import Base
from tests.seeding.kinds.kind import Kind, Site, set_item
from tests.seeding.wrong_parts import name_wrong


def _wrong(what: str, name: str, concern: str) -> Kind:
    def sites(base: Base) -> Iterator[Site]:
        for item in base.parts:
            part_id = name_wrong(base.part_id(item), what)
            if part_id in base.shelf.parts:
                yield f"{item} is {part_id}", set_item(item, part=part_id)

    return Kind(name, concern, sites)


def _stand_in(kind: str, concern: str) -> Kind:
    """Another part of the same kind that has every port, radio, setting, ring and mover that the rig uses of it."""

    def sites(base: Base) -> Iterator[Site]:
        for item in base.of_kind(kind):
            for part_id in sorted(base.shelf.parts):
                if part_id.startswith("seeding/") or part_id == base.part_id(item):
                    continue
                part = base.shelf.part(part_id)
                if part["kind"] == kind and _serves(base, item, part_id):
                    yield f"{item} is {part_id}", set_item(item, part=part_id)

    return Kind(f"another {kind.replace('_', ' ')}", concern, sites)


def _serves(base: Base, item: str, part_id: str) -> bool:
    part = base.shelf.part(part_id)
    ports = read_ports(part, base.shelf)
    text = repr(base.tree)
    for place in base.used():
        owner, _, name = place.partition(".")
        if owner == item:
            now = base.ports[place]
            if name not in ports or (ports[name].connector, ports[name].sex) != (now.connector, now.sex):
                return False
    for key in ("radios", "rings", "settings", "controls", "cells", "joints"):
        names = set(base.parts[item].get(key) or {}) - set(part.get(key) or {})
        if any(f"{item}.{name}'" in text or f"{item}.{name}," in text for name in names):
            return False
    then = part.get("settings") or {}
    stated = {**base.entry(item).get("set", {})}
    for setup in [base.tree, *(base.tree.get("setups") or {}).values()]:
        for key in ("settings", "set"):
            stated |= {p.partition(".")[2]: v for p, v in (setup.get(key) or {}).items() if p.startswith(f"{item}.")}
    return all(name in then and value in then[name]["values"] for name, value in stated.items())


KINDS = (
    _wrong("twice-the-volts", "a source of twice the volts", "electrical"),
    _wrong("half-the-volts", "a source of half the volts", "electrical"),
    _wrong("set-high", "a regulator set too high", "electrical"),
    _wrong("set-low", "a regulator set too low", "electrical"),
    _wrong("unblocked", "a regulator that does not block", "electrical"),
    _wrong("for-5-volts", "a device for 5 V", "electrical"),
    _wrong("for-24-volts", "a device for 24 V", "electrical"),
    _wrong("narrow", "a device of a narrow window", "electrical"),
    _wrong("plus-first", "a device wired plus first", "electrical"),
    _wrong("plus-first-unprotected", "an unprotected device wired plus first", "electrical"),
    _wrong("fine-gear", "a motor of another gear", "mechanics"),
    _wrong("no-torque", "a weak motor", "mechanics"),
    _wrong("rough", "a motor that forces its stops", "mechanics"),
    _wrong("no-stops", "a lens without stops", "mechanics"),
    _wrong("stiff", "a stiff lens", "mechanics"),
    _wrong("geared-fine", "a lens of another gear", "mechanics"),
    _wrong("heavy", "a heavy thing on the head", "mechanics"),
    _wrong("small", "a head or carrier for less", "mechanics"),
    _wrong("goes-on", "a head that goes on when its link drops", "radio"),
    _wrong("short-range", "a radio of short reach", "radio"),
    _stand_in("battery", "electrical"),
    _stand_in("supply", "electrical"),
    _stand_in("plate", "electrical"),
    _stand_in("breakout", "electrical"),
    _stand_in("camera", "electrical"),
    _stand_in("monitor", "electrical"),
    _stand_in("sender", "radio"),
    _stand_in("receiver", "radio"),
    _stand_in("lens_motor", "mechanics"),
    _stand_in("motor_driver", "ownership"),
    _stand_in("lens", "mechanics"),
    _stand_in("head", "ownership"),
    _stand_in("hand_unit", "ownership"),
    _stand_in("desk", "ownership"),
    _stand_in("carrier", "mechanics"),
)
