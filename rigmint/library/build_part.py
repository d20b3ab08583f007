"""Assembles a Part from its decoded tree."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import Any

from rigmint.library import build_device as device
from rigmint.library import build_electric as electric
from rigmint.library.build_lead import build_lead_body
from rigmint.library.scope import Scope, freeze
from rigmint.library.setting_checks import SettingChecks
from rigmint.rig.part import Part

_RIDES_BASE = frozenset({"head", "carrier"})
_RIDES_AWAY = frozenset({"hand_unit", "desk", "monitor", "receiver", "supply", "recorder"})
_NAME_SPACES = ("ports", "radios", "controls", "moves", "makes", "shows")


def build_part(tree: Mapping[str, Any], scope: Scope) -> Part:
    """The part in a decoded tree. Names that are not declared are recorded as faults of its document."""
    kind = str(tree.get("kind", "accessory"))  # one that was refused is recorded: the rest is still checked
    rails = electric.build_rails(tree)
    settings = device.build_settings(tree, scope)
    checks = SettingChecks(settings, scope)
    names = _check_name_space(tree, scope)
    assumed = frozenset(key for key in ("mass", "rides") if key not in tree)
    return Part(
        id=str(tree["id"]),
        name=str(tree.get("name", tree["id"])),
        kind=kind,
        figures=tree.get("figures"),
        mass=tree.get("mass"),
        rides=str(tree.get("rides") or default_rides(kind)),
        ports=electric.build_ports(tree, rails, scope),
        rails=rails,
        bridges=electric.build_bridges(tree, rails, checks, scope),
        cells=electric.build_cells(tree, rails, scope),
        chassis=str(tree.get("chassis", "open")),
        settings=settings,
        controls=device.build_controls(tree, checks, scope),
        moves=device.build_movers(tree, checks, scope),
        makes=device.build_makers(tree, checks, scope),
        shows=device.build_displays(tree),
        passes=device.build_passes(tree, names, checks, scope),
        radios=device.build_radios(tree, checks, scope),
        on_loss=tree.get("on_loss"),
        follow=device.build_follow(tree, checks, scope),
        joints=device.build_joints(tree),
        payload=device.build_payload(tree),
        rings=device.build_rings(tree),
        drive=device.build_drive(tree, checks),
        wakes=device.build_wakes(tree),
        needs=device.build_part_needs(tree, checks),
        requires=device.build_requirements(tree.get("requires", ()), "part"),
        speeds=freeze({str(key): float(value) for key, value in tree.get("speeds", {}).items()}),
        lead=build_lead_body(tree, (), scope) if kind == "lead" else None,
        assumed=assumed,
    )


def default_rides(kind: str) -> str:
    """Where a kind of device usually sits."""
    if kind in _RIDES_BASE:
        return "base"
    return "away" if kind in _RIDES_AWAY else "tilt"


def _check_name_space(tree: Mapping[str, Any], scope: Scope) -> frozenset[str]:
    counts = Counter(name for space in _NAME_SPACES for name in tree.get(space, {}))
    for space in _NAME_SPACES:
        for name in tree.get(space, {}):
            if counts[name] > 1:
                says = f"`{name}` is the name of {counts[name]} things of this part: ports, radios, controls, moves,"
                scope.fault((space, name), "file:bad-value", f"{says} makes and shows share one name space")
    return frozenset(counts)
