"""One part in full: what is needed to write it into a rig, port by port and setting by setting."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint.report.layout import count
from rigmint.rig.choice import Choice
from rigmint.rig.device import Control, Drive, LensRing, Mover, Radio, Setting
from rigmint.rig.electric import Cell, Draw, LoadKind, Port, Window
from rigmint.rig.part import Part

_UNITS = {LoadKind.POWER: "W", LoadKind.CURRENT: "A", LoadKind.RESISTANCE: "ohm"}
_WATT_HOUR = 3600.0
_DEGREES = 57.29577951308232


def describe_facts(part: Part) -> Iterator[tuple[str, str]]:
    """(heading, sentence) pairs in the order of a rig's writing."""
    for port in part.ports.values():
        yield "port", f"{port.name}: {', '.join(_describe_port(part, port))}"
    for radio in part.radios.values():
        yield "radio", f"{radio.name}: {', '.join(_describe_radio(radio))}"
    for setting in part.settings.values():
        yield "setting", f"{setting.name}: {_describe_setting(setting)}"
    for control in part.controls.values():
        yield "control", f"{control.name}: {_describe_control(control)}"
    for mover in part.moves.values():
        yield "moves", f"{mover.name}: {_describe_mover(mover)}"
    for ring in part.rings.values():
        yield "ring", f"{ring.name}{_describe_ring(ring)}"
    for name, joint in part.joints.items():
        yield "joint", f"{name}{', endless' if joint.endless else ''}{', slip ring' if joint.slip_ring else ''}"
    if part.drive is not None:
        yield "drive", ", ".join(_describe_drive(part.drive))
    if part.payload is not None:
        top = f"{part.payload.low:g} to {part.payload.high:g} kg" if part.payload.high is not None else ""
        yield "carries", top or f"from {part.payload.low:g} kg"
    for cell in part.cells.values():
        yield "source", f"{cell.name}: {', '.join(_describe_cell(cell))}"
    for rail in part.rails.values():
        if rail.load is not None:
            peak = f", {_say_draw(rail.peak)} at peak" if rail.peak is not None else ""
            yield "draws", f"{_say_draw(rail.load)} from {rail.name}{peak}"
    if part.mass is not None:
        yield "mass", f"{part.mass * 1000:.0f} g, rides on {part.rides}"


def _describe_port(part: Part, port: Port) -> Iterator[str]:
    tilde = {name: "~" if name in port.assumed else "" for name in ("works", "survives", "max", "pins")}
    printed = f" marked {port.says}" if port.says != port.name else ""
    yield f"{port.connector.id} {port.sex.value}{printed}"
    if port.pins:
        yield f"{tilde['pins']}pins " + " ".join(f"{contact}={role}" for contact, role in port.pins.items())
    if port.carries_power:
        yield f"power {port.role.value}"
        outs = [b.regulator.out for b in part.bridges if b.regulator is not None and b.target == port.rail]
        if outs and port.role.value != "in":
            yield f"gives {outs[0]:g} V"
        if port.works is not None:
            yield f"works {tilde['works']}{_say_window(port.works)}"
        if port.survives is not None:
            yield f"survives {tilde['survives']}{_say_window(port.survives)}"
        if port.max_amps is not None:
            yield f"up to {tilde['max']}{port.max_amps:g} A"
    if port.speaks:
        yield f"speaks {' '.join(port.speaks)}"
    if port.tag is not None:
        yield f"tag {port.tag}"


def _describe_radio(radio: Radio) -> Iterator[str]:
    if radio.speaks:
        yield f"speaks {' '.join(radio.speaks)}"
    yield from (f"{region} {metres:g} m" for region, metres in radio.reach.items())
    if radio.peers is not None:
        yield f"holds {count(radio.peers, 'peer')}"
    if radio.channels:
        yield f"channels {' '.join(radio.channels)}"


def _describe_setting(setting: Setting) -> str:
    values = " ".join(setting.values) or "any value"
    default = f", {setting.default} unless stated" if setting.default is not None else ", to be stated"
    return f"{values}{default}{', forgotten at power-off' if setting.forgets else ''}"


def _describe_control(control: Control) -> str:
    takes_over = f", takes over by {control.takes_over}" if control.takes_over in ("touch", "button") else ""
    steps_back = ", steps back for another hand" if control.takes_over == "never" else ""
    automatic = ", automatic" if control.automatic else ""
    return f"{control.sends.value}, {_say_choice(control.axis)}{automatic}{takes_over}{steps_back}"


def _describe_mover(mover: Mover) -> str:
    takes = f", takes {' or '.join(sorted(mover.takes))}" if mover.takes else ""
    return f"{_say_choice(mover.axis)}{takes}"


def _describe_ring(ring: LensRing) -> str:
    module = f", module {1000 * ring.module:.3g} mm" if ring.module is not None else ""
    teeth = f", {ring.teeth} teeth" if ring.teeth is not None else ""
    turn = f", {ring.turn * _DEGREES:.0f} deg" if ring.turn is not None else ""
    torque = f", takes {ring.torque:.3g} N*m" if ring.torque is not None else ""
    stands = f", stops stand {ring.stands:.3g} N*m" if ring.stands is not None and ring.stops else ""
    return f"{module}{teeth}{turn}{torque}{', no stops' if ring.stops is False else stands}"


def _describe_drive(drive: Drive) -> Iterator[str]:
    if drive.module is not None:
        yield f"module {1000 * drive.module:.3g} mm"
    if drive.teeth is not None:
        yield f"{drive.teeth} teeth"
    if drive.torque is not None:
        yield f"{drive.torque:.3g} N*m"
    if drive.speed is not None:
        yield f"{drive.speed * _DEGREES:.0f} deg/s"
    if drive.calibration is not None and not drive.never_calibrates:
        yield f"seeks stops with {drive.calibration:.3g} N*m"
    if drive.calibrates:
        yield "calibrates when " + ", ".join(f"{name} is {' or '.join(v)}" for name, v in drive.calibrates.items())
    if drive.never_calibrates:
        yield "never calibrates on its own"


def _describe_cell(cell: Cell) -> Iterator[str]:
    yield _say_window(cell.volts)
    if cell.energy is not None:
        yield f"{cell.energy / _WATT_HOUR:.0f} Wh"
    if cell.max_amps is not None:
        yield f"up to {cell.max_amps:g} A"


def _say_choice(choice: Choice) -> str:
    return f"axis by the setting {choice.setting}" if choice.setting is not None else " ".join(choice.words)


def _say_window(window: Window) -> str:
    return f"{window.low:g} V" if window.low == window.high else f"{window.low:g} to {window.high:g} V"


def _say_draw(draw: Draw) -> str:
    return f"{draw.amount:g} {_UNITS[draw.kind]}"
