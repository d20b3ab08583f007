"""Which parts have something inside that wants volts."""

from __future__ import annotations

from rigmint.rig.electric import BridgeKind
from rigmint.rig.part import Part

_PASSIVE_KINDS = frozenset({"plate", "breakout", "cage", "rods", "carrier", "counterweight", "matte_box"})


def has_electronics(part: Part) -> bool:
    """Whether there is something behind its ports that wants volts or is hurt by wrong ones: not in a bare plate or
    breakout."""
    if part.kind not in _PASSIVE_KINDS:
        return True
    is_electronic = any(bridge.kind in (BridgeKind.REGULATOR, BridgeKind.DIODE) for bridge in part.bridges)
    return is_electronic or bool(part.cells) or any(rail.load is not None for rail in part.rails.values())


def wants_volts(part: Part) -> bool:
    """Whether it is a device that states no load, though it must draw something."""
    return has_electronics(part) and not any(rail.load is not None for rail in part.rails.values())
