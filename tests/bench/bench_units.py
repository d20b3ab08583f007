"""The blocks from which the benchmark's rigs are put together: a camera at a desk, one by follow mode, a village."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, field

PICTURE_CHANNELS = (36, 40, 44, 48)
LENS_CHANNELS = (1, 3, 5, 7)
_LENSES = ("generic/lens-prime-compact", "generic/lens-anamorphic", "generic/lens-zoom-compact")


@dataclass(slots=True)
class SetupSheet:
    """One setup as it will be written."""

    says: str
    set: dict[str, str] = field(default_factory=dict)
    out: list[str] = field(default_factory=list)
    who: dict[str, str] = field(default_factory=dict)


class Sheet:
    """A rig as it will be written: entries as YAML text, by key."""

    def __init__(self, chance: random.Random) -> None:
        self.chance = chance
        self.region = chance.choice(("eu", "uk"))
        self.runtime = chance.choice((30, 40, 45))
        self.distance = chance.choice((20, 40, 60, 80))
        self.units: list[str] = []
        self.kit: dict[str, str] = {}
        self.docks: list[str] = []
        self.leads: dict[str, str] = {}
        self.links: dict[str, str] = {}
        self.radios: dict[str, list[str]] = {}
        self.fitted: dict[str, str] = {}
        self.crew: dict[str, list[str]] = {}
        self.settings: dict[str, str] = {}
        self.tied: list[str] = []
        self.setups = {"as_prepped": SetupSheet("Everybody is there")}
        if chance.random() < 0.5:
            self.setups["no_assistant"] = SetupSheet("Focus stays where it is taped")
        if len(self.setups) > 1 and chance.random() < 0.4:
            self.setups["walk_through"] = SetupSheet("Without the recorders, as it is rehearsed")

    @property
    def cameras(self) -> list[str]:
        """The cameras, by name."""
        return [f"cam_{letter}" for letter in self.units]

    def lead(self, label: str, part: str, start: str, end: str, *, tied: bool = False) -> None:
        """A lead of the catalogue, often cut to a length of its own."""
        length = f", length: {self.chance.randrange(20, 90, 5)} cm" if self.chance.random() < 0.4 else ""
        self.leads[label] = f"{{part: generic/{part}, from: {start}, to: {end}{length}}}"
        self.tied += [label] if tied else []


def _add_camera(sheet: Sheet, letter: str, asset: str) -> None:
    """Battery, plate, breakout, camera and what is bolted to it."""
    chance, kit, up = sheet.chance, sheet.kit, letter.upper()
    sheet.units.append(letter)
    size = chance.choice(("98wh", "150wh"))
    kit[f"battery_{letter}"] = f"generic/battery-{size}-wedge"
    kit[f"plate_{letter}"] = "generic/plate-wedge-two-tap"
    kit[f"breakout_{letter}"] = "generic/breakout-four-2pin"
    kit[f"cam_{letter}"] = f"{{part: generic/camera-compact, set: {{format: 1080p25}}, asset: {asset}}}"
    kit[f"lens_{letter}"] = chance.choice(_LENSES)
    kit[f"cage_{letter}"] = "generic/cage-compact"
    kit[f"pack_{letter}"] = "generic/battery-handgrip-43wh"
    kit[f"bar_{letter}"] = "generic/carrier-two-handgrips"
    kit[f"clock_{letter}"] = "{part: generic/timecode-box, set: {source: own}}"
    sheet.docks += [
        f"battery_{letter}.mount > plate_{letter}.battery",
        f"lens_{letter}.mount > cam_{letter}.mount",
        f"cam_{letter}.base > cage_{letter}.camera",
        f"cage_{letter}.base > head_{letter}.plate",
        f"head_{letter}.base > bar_{letter}.head",
        f"pack_{letter}.mount > head_{letter}.pack",
    ]
    sheet.lead(f"P{up}1", "lead-tap-to-2pin", f"plate_{letter}.tap_1", f"breakout_{letter}.in", tied=True)
    sheet.lead(f"P{up}2", "lead-2pin", f"breakout_{letter}.out_1", f"cam_{letter}.dc_in")
    sheet.lead(f"T{up}1", "lead-timecode", f"clock_{letter}.tc", f"cam_{letter}.tc_in")
    if chance.random() < 0.5:
        kit[f"lamp_{letter}"] = "generic/light-on-board"
        sheet.lead(f"X{up}1", "lead-tap-to-2pin", f"plate_{letter}.tap_2", f"lamp_{letter}.dc_in", tied=True)


def _add_lens_control(sheet: Sheet, letter: str, channel: int) -> None:
    """Driver, motors on a bus or on sockets of their own, hand unit, a range finder now and then."""
    chance, kit, up = sheet.chance, sheet.kit, letter.upper()
    kit[f"driver_{letter}"] = '{part: generic/motor-driver-three, firmware: "2.3"}'
    kit[f"rods_{letter}"] = "generic/rods-15-light-pair"
    sheet.docks.append(f"rods_{letter}.block > cage_{letter}.rods")
    axes = ("focus", "iris")[: chance.choice((1, 2, 2))]
    for number, axis in enumerate(axes, start=1):
        motor = f"{axis}_{letter}"
        kit[motor] = f"{{part: generic/lens-motor, set: {{axis: {axis}}}}}"
        sheet.docks.append(f"{motor}.rod > rods_{letter}.motor_{number}")
        sheet.lead(f"M{up}{number}", "lead-bus", f"driver_{letter}.motor_{number}", f"{motor}.bus_1", tied=True)
        sheet.fitted[motor] = f"lens_{letter}.{axis}"
    sheet.lead(f"P{up}3", "lead-2pin-short", f"breakout_{letter}.out_2", f"driver_{letter}.dc_in")
    loom = f"a: driver_{letter}.head, b: head_{letter}.accessory, c: head_{letter}.record"
    sheet.leads[f"D{up}1"] = f"{{part: generic/loom-head-y, ends: {{{loom}}}}}"
    sheet.tied.append(f"D{up}1")
    sheet.lead(f"R{up}1", "lead-run", f"driver_{letter}.run", f"cam_{letter}.remote")
    if chance.random() < 0.5:
        kit[f"finder_{letter}"] = "generic/range-finder"
        sheet.lead(f"D{up}2", "lead-range-finder", f"driver_{letter}.finder", f"finder_{letter}.data")
    if chance.random() < 0.4:
        kit[f"matte_box_{letter}"] = "generic/matte-box-rods"
        sheet.docks.append(f"matte_box_{letter}.rods > rods_{letter}.matte_box")
    kit[f"hand_{letter}"] = "generic/hand-unit-three-axis"
    kit[f"mon_ac_{letter}"] = "{part: generic/monitor-receiver, set: {slot: b}, for: focus}"
    sheet.crew[f"first_ac_{letter}"] = [f"hand_{letter}", f"mon_ac_{letter}"]
    radios = f"[driver_{letter}.radio, hand_{letter}.radio]"
    sheet.links[f"lens_control_{letter}"] = f"{{between: {radios}, distance: {sheet.distance} m, channel: {channel}}}"
    for name, setup in sheet.setups.items():
        for axis in axes:
            setup.who[f"lens_{letter}.{axis}"] = f"first_ac_{letter}" if name != "no_assistant" else "nobody"
        setup.out += [f"hand_{letter}"] if name == "no_assistant" else []


def _add_head(sheet: Sheet, letter: str, operator: str, *, roll: str) -> None:
    for name, setup in sheet.setups.items():
        setup.who[f"head_{letter}.pan"] = operator
        setup.who[f"head_{letter}.tilt"] = operator
        setup.who[f"head_{letter}.roll"] = roll
        ac = f"first_ac_{letter}"
        setup.who[f"cam_{letter}.record"] = operator if name == "no_assistant" else f"[{operator}, {ac}]"


def add_desk_unit(sheet: Sheet, letter: str, picture: int, lens: int, asset: str) -> None:
    """A camera whose operator sits at the wheels."""
    _add_camera(sheet, letter, asset)
    _add_lens_control(sheet, letter, lens)
    kit, up, operator = sheet.kit, letter.upper(), f"operator_{letter}"
    kit[f"head_{letter}"] = f"{{part: kestrel/head-pan-stop, asset: HEAD-{asset[4:]}}}"
    kit[f"sender_{letter}"] = "{part: generic/sender-5ghz-long, rides: base}"
    kit[f"desk_{letter}"] = "{part: generic/desk-wheels, set: {lens_control: off, mode_button: off}}"
    kit[f"mon_op_{letter}"] = "{part: generic/monitor-receiver, set: {slot: a}, for: operator}"
    sheet.docks.append(f"desk_{letter}.monitor_bracket > mon_op_{letter}.bracket")
    sheet.lead(f"P{up}4", "lead-2pin-long", f"breakout_{letter}.out_3", f"sender_{letter}.dc_in")
    sheet.lead(f"C{up}1", "lead-head-control", f"sender_{letter}.control", f"head_{letter}.control", tied=True)
    sheet.lead(f"S{up}1", "lead-sdi-1m", f"cam_{letter}.sdi_1", f"sender_{letter}.sdi_in")
    sheet.settings |= {
        f"head_{letter}.mode": "custom",
        f"head_{letter}.dial": "none",
        f"head_{letter}.follow_pan": "off",
        f"head_{letter}.follow_tilt": "off",
        f"head_{letter}.follow_roll": "off",
    }
    sheet.crew |= {operator: [f"desk_{letter}", f"mon_op_{letter}"], f"carrier_{letter}": [f"head_{letter}"]}
    _add_head(sheet, letter, operator, roll=operator)
    _add_picture(sheet, letter, picture, [f"mon_op_{letter}.radio", f"mon_ac_{letter}.radio"])


def add_follow_unit(sheet: Sheet, letter: str, picture: int, lens: int, asset: str) -> None:
    """A camera whose operator carries it, by follow mode."""
    _add_camera(sheet, letter, asset)
    _add_lens_control(sheet, letter, lens)
    kit, up, operator = sheet.kit, letter.upper(), f"operator_{letter}"
    kit[f"head_{letter}"] = f"{{part: kestrel/head-pan-stop, asset: HEAD-{asset[4:]}}}"
    kit[f"mon_{letter}"] = "{part: generic/monitor-5in-loop, for: operator}"
    kit[f"sender_{letter}"] = "generic/sender-5ghz-long"
    sheet.lead(f"P{up}4", "lead-2pin", f"breakout_{letter}.out_3", f"sender_{letter}.dc_in")
    sheet.lead(f"P{up}5", "lead-2pin", f"breakout_{letter}.out_4", f"mon_{letter}.dc_in")
    sheet.lead(f"S{up}1", "lead-sdi", f"cam_{letter}.sdi_1", f"mon_{letter}.sdi_in")
    sheet.lead(f"S{up}2", "lead-sdi", f"mon_{letter}.sdi_out", f"sender_{letter}.sdi_in")
    sheet.settings |= {f"head_{letter}.mode": "pan_tilt_follow", f"head_{letter}.dial": "none"}
    sheet.crew[operator] = [f"head_{letter}", f"mon_{letter}"]
    _add_head(sheet, letter, operator, roll="nobody")
    _add_picture(sheet, letter, picture, [f"mon_ac_{letter}.radio"])


def _add_picture(sheet: Sheet, letter: str, channel: int, radios: list[str]) -> None:
    sheet.radios[letter] = [f"sender_{letter}.radio", *radios]
    sheet.links[f"picture_{letter}"] = _write_picture(sheet, letter, channel)


def _write_picture(sheet: Sheet, letter: str, channel: int) -> str:
    between = ", ".join(sheet.radios[letter])
    return f"{{between: [{between}], distance: {sheet.distance} m, channel: {channel}}}"


def add_village(sheet: Sheet, letters: Sequence[str]) -> None:
    """Where all pictures arrive: a battery, a receiver and a monitor for each camera, a recorder behind some."""
    kit = sheet.kit
    kit["battery_v"] = "{part: generic/battery-150wh-wedge, rides: away}"
    kit["plate_v"] = "{part: generic/plate-wedge-three-out, rides: away}"
    director = []
    for number, letter in enumerate(letters, start=1):
        up, recorder = letter.upper(), sheet.chance.random() < 0.4
        kit[f"breakout_v{letter}"] = "{part: generic/breakout-four-2pin, rides: away}"
        kit[f"rx_{letter}"] = "generic/receiver-5ghz"
        kit[f"dir_{letter}"] = "{part: generic/monitor-5in-loop, rides: away, for: watch}"
        plate = "plate_v.tap_1" if number == 1 else f"plate_v.out_{number - 1}"
        lead = "lead-tap-to-2pin-long" if number == 1 else "lead-2pin-long"
        sheet.lead(f"V{up}1", lead, plate, f"breakout_v{letter}.in", tied=number == 1)
        sheet.lead(f"V{up}2", "lead-2pin", f"breakout_v{letter}.out_1", f"rx_{letter}.dc_in")
        sheet.lead(f"V{up}3", "lead-2pin", f"breakout_v{letter}.out_2", f"dir_{letter}.dc_in")
        sheet.lead(f"V{up}4", "lead-sdi", f"rx_{letter}.sdi_1", f"dir_{letter}.sdi_in")
        if recorder:
            kit[f"rec_{letter}"] = "{part: generic/recorder-sdi, rides: away}"
            sheet.lead(f"V{up}5", "lead-2pin", f"breakout_v{letter}.out_3", f"rec_{letter}.dc_in")
            sheet.lead(f"V{up}6", "lead-sdi", f"dir_{letter}.sdi_out", f"rec_{letter}.sdi_in")
            if "walk_through" in sheet.setups:
                sheet.setups["walk_through"].out.append(f"rec_{letter}")
        director.append(f"dir_{letter}")
        sheet.radios[letter].append(f"rx_{letter}.radio")
        channel = int(sheet.links[f"picture_{letter}"].rpartition(" ")[2].rstrip("}"))
        sheet.links[f"picture_{letter}"] = _write_picture(sheet, letter, channel)
    sheet.docks.append("battery_v.mount > plate_v.battery")
    sheet.crew["director"] = director
