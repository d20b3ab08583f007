"""Settings, controls, movers, passes, radios and the mechanics of a part."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from rigmint.library.build_electric import build_window
from rigmint.library.document import Path
from rigmint.library.faults import suggest
from rigmint.library.scope import Scope, as_tuple, freeze, numbered, read_choice, read_when
from rigmint.library.setting_checks import SettingChecks
from rigmint.physics.gears import find_module
from rigmint.rig.choice import Choice
from rigmint.rig.device import (
    Control,
    Display,
    Drive,
    Follow,
    Joint,
    LensRing,
    Maker,
    Mover,
    PartNeed,
    Pass,
    Payload,
    Radio,
    RadioChannel,
    Requirement,
    Setting,
    SignalKind,
    Wakes,
)
from rigmint.words import HEAD_AXES, Grade

Tree = Mapping[str, Any]


def build_settings(tree: Tree, scope: Scope) -> Mapping[str, Setting]:
    """Every setting; its default must be one of its values."""
    settings = {}
    for name, body in tree.get("settings", {}).items():
        values = as_tuple(body.get("values"))
        default = body.get("default")
        if default is not None and values and default not in values:
            says = f"`{default}` is not one of the values of `{name}`{suggest(default, values)}"
            scope.fault(("settings", name, "default"), "file:bad-value", says)
        settings[name] = Setting(name, values, default, bool(body.get("forgets", False)))
    return freeze(settings)


def build_controls(tree: Tree, checks: SettingChecks, scope: Scope) -> Mapping[str, Control]:
    """Every control."""
    axes = scope.tokens.carried
    controls = {}
    for name, body in tree.get("controls", {}).items():
        path: Path = ("controls", name)
        controls[name] = Control(
            name=name,
            sends=SignalKind(body["sends"]),
            axis=checks.choice(body.get("axis"), (*path, "axis"), axes, "axis"),
            turn=body.get("turn"),
            automatic=bool(body.get("automatic", False)),
            takes_over=body.get("takes_over"),
            when=checks.when(body.get("when"), path),
        )
    return freeze(controls)


def build_movers(tree: Tree, checks: SettingChecks, scope: Scope) -> Mapping[str, Mover]:
    """Everything that moves an axis."""
    movers = {}
    for name, body in tree.get("moves", {}).items():
        path: Path = ("moves", name)
        movers[name] = Mover(
            name=name,
            axis=checks.choice(body.get("axis"), (*path, "axis"), scope.tokens.carried, "axis"),
            takes=frozenset(SignalKind(word) for word in as_tuple(body.get("takes"))),
            steps=body.get("steps"),
            when=checks.when(body.get("when"), path),
        )
    return freeze(movers)


def build_makers(tree: Tree, checks: SettingChecks, scope: Scope) -> Mapping[str, Maker]:
    """Everything at which flows begin."""
    makers = {}
    for name, body in tree.get("makes", {}).items():
        flows = {}
        for flow, value in body.items():
            path: Path = ("makes", name, flow)
            if scope.knows(path, flow, scope.tokens.flows, "flow"):
                flows[flow] = Choice() if value is True else checks.choice(value, path, None, "format")
        makers[name] = Maker(name, freeze(flows))
    return freeze(makers)


def build_displays(tree: Tree) -> Mapping[str, Display]:
    """Everything at which a flow ends."""
    return freeze(
        {name: Display(name, (body or {}).get("latency", 0.0)) for name, body in tree.get("shows", {}).items()}
    )


def build_passes(tree: Tree, names: frozenset[str], checks: SettingChecks, scope: Scope) -> tuple[Pass, ...]:
    """Every way of signals through the part; its ends must be among `names`."""
    passes = []
    for index, body in numbered(tree.get("passes")):
        path: Path = ("passes", index)
        ends = {key: as_tuple(body[key]) for key in ("from", "to")}
        for key, words in ends.items():
            for word in words:
                scope.knows((*path, key), word, names, "port, radio, control or mover of this part called")
        axes, carries = body.get("axes"), body.get("carries")
        if axes is not None:
            axes = checks.choice(axes, (*path, "axes"), scope.tokens.carried, "axis")
        for word in as_tuple(carries):
            scope.knows((*path, "carries"), word, scope.tokens.carried, "axis or flow")
        becomes = body.get("as")
        form = body.get("format")
        passes.append(
            Pass(
                index=index,
                sources=ends["from"],
                targets=ends["to"],
                axes=axes,
                carries=as_tuple(carries) if carries is not None else None,
                becomes=SignalKind(becomes) if becomes is not None else None,
                when=checks.when(body.get("when"), path),
                accepts=as_tuple(body.get("accepts")),
                format=checks.choice(form, (*path, "format"), None, "format") if form is not None else None,
                latency=body.get("latency", 0.0),
                passive=bool(body.get("passive", False)),
            )
        )
    return tuple(passes)


def build_radios(tree: Tree, checks: SettingChecks, scope: Scope) -> Mapping[str, Radio]:
    """Every radio."""
    radios = {}
    for name, body in tree.get("radios", {}).items():
        path: Path = ("radios", name)
        slot = body.get("slot")
        channels = {
            key: RadioChannel(item["centre"], item["width"], item.get("listens", 0.0))
            for key, item in body.get("channels", {}).items()
        }
        shared = as_tuple(slot.get("shared")) if isinstance(slot, Mapping) else ()
        radios[name] = Radio(
            name=name,
            speaks=scope.protocols((*path, "speaks"), body.get("speaks", ())),
            band=build_window(body.get("band")),
            power=freeze(body.get("power", {})),
            hears=body.get("hears"),
            reach=freeze(body.get("reach", {})),
            peers=body.get("peers"),
            slot=checks.choice(slot, (*path, "slot"), None, "slot") if slot is not None else None,
            shared_slots=shared,
            gain=body.get("gain", 0.0),
            channels=freeze(channels),
        )
    return freeze(radios)


def build_follow(tree: Tree, checks: SettingChecks, scope: Scope) -> Follow | None:
    """The follow modes of a head."""
    body = tree.get("follow")
    if body is None:
        return None
    modes = {}
    for mode, axes in body.get("modes", {}).items():
        path: Path = ("follow", "modes", mode)
        modes[mode] = freeze(
            {
                axis: checks.choice(value, (*path, axis), ("on", "off"), "state")
                for axis, value in (axes or {}).items()
                if scope.knows((*path, axis), axis, HEAD_AXES, "head axis")
            }
        )
    cycle = as_tuple(body.get("cycle"))
    for word in cycle:
        scope.knows(("follow", "cycle"), word, modes, "follow mode")
    mode_choice = body.get("mode")
    return Follow(
        mode=checks.choice(mode_choice, ("follow", "mode"), modes, "follow mode"),
        modes=freeze(modes),
        cycle=cycle,
        dead_band=freeze({axis: read_choice(value) for axis, value in body.get("dead_band", {}).items()}),
    )


def build_joints(tree: Tree) -> Mapping[str, Joint]:
    """The joints of a head."""
    return freeze(
        {
            name: Joint(
                name,
                bool(body.get("endless", False)),
                bool(body.get("slip_ring", False)),
                build_window(body.get("travel")),
            )
            for name, body in tree.get("joints", {}).items()
        }
    )


def build_payload(tree: Tree) -> Payload | None:
    """What a head or an arm carries."""
    body = tree.get("payload")
    return Payload(body.get("min", 0.0), body.get("max")) if body is not None else None


def build_rings(tree: Tree) -> Mapping[str, LensRing]:
    """The rings of a lens."""
    keys = ("teeth", "turn", "torque", "stops", "stands")
    return freeze(
        {
            name: LensRing(name, _read_module(body or {}), *((body or {}).get(key) for key in keys))
            for name, body in tree.get("rings", {}).items()
        }
    )


def build_drive(tree: Tree, checks: SettingChecks) -> Drive | None:
    """The output gear of a lens motor."""
    body = tree.get("drive")
    if body is None:
        return None
    calibrates = body.get("calibrates", {})
    is_never = calibrates == "never"
    return Drive(
        module=_read_module(body),
        teeth=body.get("teeth"),
        torque=body.get("torque"),
        speed=body.get("speed"),
        calibration=body.get("calibration"),
        never_calibrates=is_never,
        calibrates=checks.when(None if is_never else calibrates.get("when"), ("drive", "calibrates")),
    )


def _read_module(body: Tree) -> float | None:
    """The module of a gear in m, where the part states that or a diametral pitch."""
    stated = body.get("module")
    if stated is None:
        return None
    return find_module(stated.value) if stated.kind == "diametral_pitch" else float(stated.value)


def build_wakes(tree: Tree) -> Wakes | None:
    """What happens at switch-on."""
    body = tree.get("wakes")
    return Wakes(bool(body.get("moves", False)), as_tuple(body.get("before"))) if body is not None else None


def build_part_needs(tree: Tree, checks: SettingChecks) -> tuple[PartNeed, ...]:
    """What the part asks of the chain."""
    return tuple(
        PartNeed(body.get("next_to"), freeze(body.get("firmware", {})), checks.when(body.get("when"), ("needs", index)))
        for index, body in numbered(tree.get("needs"))
    )


def build_requirements(entries: Sequence[Tree | None], origin: str) -> tuple[Requirement, ...]:
    """Statements of `requires`."""
    return tuple(
        Requirement(
            when=read_when(entry.get("when")),
            settings=freeze({key: as_tuple(value) for key, value in entry.get("set", {}).items()}),
            alike=tuple(as_tuple(group) for group in entry.get("alike", ())),
            unlike=tuple(as_tuple(group) for group in entry.get("unlike", ())),
            why=str(entry.get("why", "")),
            grade=Grade(entry.get("grade", "dead")),
            origin=origin,
        )
        for _, entry in numbered(entries)
    )
