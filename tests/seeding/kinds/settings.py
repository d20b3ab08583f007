"""Mistakes of setting: one switch, menu or dial that stands otherwise."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from tests.seeding.base import Base
from tests.seeding.kinds.kind import Kind, Site, find_setting, set_setting


def _flip(name: str, concern: str, takes: Callable[[str, str], bool]) -> Kind:
    """Every setting that `takes` names (kind of part, setting), to every other value."""

    def sites(base: Base) -> Iterator[Site]:
        for item, part in base.parts.items():
            for setting, body in part.get("settings", {}).items():
                if not isinstance(body, dict) or not takes(str(part["kind"]), setting):
                    continue
                place = f"{item}.{setting}"
                for value in body.get("values", ()):
                    if value != find_setting(base, place):
                        yield f"{place} is {value}", set_setting(place, value)

    return Kind(name, concern, sites)


_NAMED = {
    "axis", "mode", "dial", "wheel", "lens_control", "mode_button", "slot", "format", "monitor_format", "link_axis",
    "motor_1", "motor_2", "motor_3", "dial_speed", "source", "rate", "calibration", "focus_assist", "stick",
}  # fmt: skip
KINDS = (
    _flip("a motor on another axis", "ownership", lambda kind, name: kind == "lens_motor" and name == "axis"),
    _flip("a driver's socket on another axis", "ownership", lambda _, name: name.startswith("motor_")),
    _flip("another follow mode", "ownership", lambda kind, name: kind == "head" and name == "mode"),
    _flip(
        "follow mode armed on an axis",
        "ownership",
        lambda kind, name: kind == "head" and name.startswith(("follow_", "second_")),
    ),
    _flip("the head's dial on a lens axis", "ownership", lambda _, name: name == "dial"),
    _flip("the handgrip's wheel on a lens axis", "ownership", lambda _, name: name == "wheel"),
    _flip("the head's stick live", "ownership", lambda _, name: name == "stick"),
    _flip("the desk's lens control", "ownership", lambda _, name: name == "lens_control"),
    _flip("the desk's mode button live", "ownership", lambda _, name: name == "mode_button"),
    _flip("the link's lens axis", "ownership", lambda _, name: name == "link_axis"),
    _flip("focus assist", "ownership", lambda _, name: name == "focus_assist"),
    _flip("a slot used twice", "radio", lambda _, name: name == "slot"),
    _flip("another picture format", "picture", lambda _, name: name in ("format", "monitor_format")),
    _flip("another clock source", "picture", lambda _, name: name == "source"),
    _flip("another dial speed", "mechanics", lambda _, name: name == "dial_speed"),
    _flip("another calibration", "mechanics", lambda _, name: name == "calibration"),
    _flip(
        "any other setting",
        "settings",
        lambda _, name: name not in _NAMED and not name.startswith(("follow_", "second_")),
    ),
)
