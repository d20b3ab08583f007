"""The circuit of small rigs, each worked out by hand: one mechanism a test, its arithmetic beside the number."""

from __future__ import annotations

import json
import math
from typing import Any

import pytest

from rigmint.report.power_json import render_power_json
from rigmint.report.power_setup import gather_power
from rigmint.rig.house import House, PowerFigures
from rigmint.rig.rig import PortRef
from rigmint.study.power import Point, PointPower, Power
from rigmint.study.surge import list_inner_fuses
from tests.builders import make_rig, make_studies
from tests.study.power_parts import CONTACT, ONE_CAMERA, PACK_OHMS, PARTS, PORT, lead, pair


def study(rig: str, parts: str = "", house: House | None = None) -> Power:
    """The power of a rig's first setup."""
    studies, setup = make_studies(rig, PARTS + parts, house)
    return studies.power(setup)


def full(rig: str, parts: str = "", house: House | None = None) -> PointPower:
    """The same with full batteries."""
    return study(rig, parts, house).points[Point.FULL]


def port(point: PointPower, place: str) -> tuple[float, float]:
    """V and A into the part."""
    item, _, name = place.partition(".")
    found = point.ports[PortRef(item, name)]
    return found.volts, found.amps


ONE_MOTOR = """
kit: {pack: house/pack, motor: house/motor}
leads: {P1: {part: house/lead, from: pack.out, to: motor.dc_in}}
"""


def test_the_contact_resistance_on_which_these_sums_rest() -> None:
    rig = make_rig("kit: {pack: house/pack}", PARTS)

    assert rig.items["pack"].part.ports["out"].connector.contact_ohms == CONTACT


@pytest.mark.parametrize(
    ("what", "ohms_per_metre"),
    [
        # AWG: R20 of the solid wire (ASTM B258, IACS), times 1.02 for stranding
        ("gauge: 18 AWG", 20.948e-3 * 1.02),
        ("gauge: 20 AWG", 33.309e-3 * 1.02),
        ("gauge: 24 AWG", 84.215e-3 * 1.02),
        # mm2: 1/58 ohm mm2/m over the area, times 1.131 up to 1.0 mm2, 1.157 from 1.5 mm2, straight between
        ("area: 0.5 mm2", 1 / 58 / 0.5 * 1.131),
        ("area: 1.0 mm2", 1 / 58 / 1.0 * 1.131),
        ("area: 1.25 mm2", 1 / 58 / 1.25 * 1.144),
        ("area: 2.5 mm2", 1 / 58 / 2.5 * 1.157),
    ],
)
def test_the_drop_over_a_lead_counts_both_ways_and_four_contacts(what: str, ohms_per_metre: float) -> None:
    point = full(ONE_MOTOR, lead(pair(what)))
    drop = 2.0 * (2 * 2.0 * ohms_per_metre + 4 * CONTACT)

    assert point.leads["P1"].amps == pytest.approx(2.0, rel=1e-9)
    assert point.leads["P1"].drop == pytest.approx(drop, rel=1e-4)
    assert port(point, "motor.dc_in") == pytest.approx((16.8 - 2.0 * PACK_OHMS - drop, 2.0), rel=1e-5)
    assert port(point, "pack.out") == pytest.approx((16.8 - 2.0 * PACK_OHMS, -2.0), rel=1e-9)


def test_the_length_in_the_rig_wins_over_that_of_the_part() -> None:
    parts = lead(pair("gauge: 20 AWG"), "2 m")
    long = full(ONE_MOTOR.replace("motor.dc_in}", "motor.dc_in, length: 6 m}"), parts).leads["P1"].drop
    short = full(ONE_MOTOR, parts).leads["P1"].drop

    assert long - short == pytest.approx(2.0 * 2 * 4.0 * 33.309e-3 * 1.02, rel=1e-4)


def test_warm_wire_has_more_resistance() -> None:
    warm = House(power=PowerFigures(wire_temperature=273.15 + 75))
    parts = lead(pair("gauge: 20 AWG"))
    cold_drop, warm_drop = (full(ONE_MOTOR, parts, house).leads["P1"].drop for house in (None, warm))
    contacts = 2.0 * 4 * CONTACT

    assert (warm_drop - contacts) / (cold_drop - contacts) == pytest.approx(1.21615, rel=1e-5)


def test_a_dock_has_two_contacts_and_no_wire() -> None:
    point = full("kit: {pack: house/pack, motor: house/motor}\ndocks: [pack.out > motor.dc_in]")

    assert port(point, "pack.out")[0] - port(point, "motor.dc_in")[0] == pytest.approx(2.0 * 2 * CONTACT, rel=1e-9)


def test_a_fuse_adds_five_milliohm() -> None:
    plain = lead(pair("gauge: 20 AWG"))
    fused = lead("{from: a.1, to: b.1, gauge: 20 AWG, fuse: 5 A}, {from: a.2, to: b.2, gauge: 20 AWG}")
    difference = full(ONE_MOTOR, fused).leads["P1"].drop - full(ONE_MOTOR, plain).leads["P1"].drop

    assert difference == pytest.approx(2.0 * 0.005, rel=1e-6)


@pytest.mark.parametrize(
    ("conductor", "amps", "lost"), [("from: a.1, to: b.1", 2.0, 0.7), ("from: b.1, to: a.1", 0.0, 16.8)]
)
def test_a_diode_in_a_lead_drops_one_way_and_blocks_the_other(conductor: str, amps: float, lost: float) -> None:
    diode = lead(f"{{{conductor}, gauge: 20 AWG, diode: 0.7 V}}, {{from: a.2, to: b.2, gauge: 20 AWG}}")
    volts, drawn = port(full(ONE_MOTOR, diode), "motor.dc_in")
    wires = 2 * 2.0 * 33.309e-3 * 1.02 + 4 * CONTACT + PACK_OHMS

    assert drawn == pytest.approx(amps, abs=1e-9)
    assert volts == pytest.approx(16.8 - lost - amps * wires, abs=1e-4)


SWITCHED = f"""
house/switched:
  kind: accessory
  rails: {{in: {{}}, tap: {{}}}}
  settings: {{tap: {{values: [on, off]}}}}
  bridges: [{{from: in, to: tap, by: switch, resistance: 20 mohm, when: {{tap: on}}}}]
  ports: {{a: {{{PORT}, rail: in}}, b: {{{PORT}, rail: tap}}}}
"""


@pytest.mark.parametrize(
    ("setting", "volts", "amps"),
    [
        ("{part: house/switched, set: {tap: on}}", 16.8 - 2.0 * (PACK_OHMS + 4 * CONTACT + 0.02), 2.0),
        ("{part: house/switched, set: {tap: off}}", 0.0, 0.0),
        ("house/switched", 16.8 - 2.0 * (PACK_OHMS + 4 * CONTACT + 0.02), 2.0),  # nobody stated it: closed
    ],
)
def test_a_switch_follows_its_setting(setting: str, volts: float, amps: float) -> None:
    kit = f"kit: {{pack: house/pack, box: {setting}, motor: house/motor}}"
    point = full(f"{kit}\ndocks: [pack.out > box.a, box.b > motor.dc_in]", SWITCHED)

    assert port(point, "motor.dc_in") == pytest.approx((volts, amps), abs=1e-9)


REGULATED = f"""
house/regulated:
  kind: regulator
  rails: {{raw: {{}}, five: {{}}}}
  bridges: [{{from: raw, to: five, by: regulator, out: 5 V, max: 3 A, efficiency: 80 %}}]
  ports: {{in: {{{PORT}, rail: raw, role: in}}, out: {{{PORT}, rail: five, role: out}}}}
house/usb-motor: {{kind: lens_motor, rails: {{main: {{load: 2 A}}}}, ports: {{dc_in: {{{PORT}, works: 4 to 6 V}}}}}}
house/ohm: {{kind: accessory, rails: {{main: {{load: 1 ohm}}}}, ports: {{dc_in: {{{PORT}, works: 1 to 6 V}}}}}}
"""


def regulate(load: str) -> PointPower:
    """A regulator docked between a full pack and a load."""
    kit = f"kit: {{pack: house/pack, reg: house/regulated, load: {load}}}"
    return full(f"{kit}\ndocks: [pack.out > reg.in, reg.out > load.dc_in]", REGULATED)


def test_a_regulator_takes_its_output_power_over_its_efficiency() -> None:
    point = regulate("house/usb-motor")
    # 5 V x 2 A / 0.8 = 12.5 W out of 16.8 V behind the pack and two contacts: V = (E + sqrt(E2 - 4 R P)) / 2
    ohms = PACK_OHMS + 2 * CONTACT
    volts = (16.8 + math.sqrt(16.8**2 - 4 * ohms * 12.5)) / 2

    assert port(point, "reg.in") == pytest.approx((volts, 12.5 / volts), rel=1e-6)
    assert port(point, "load.dc_in") == pytest.approx((5.0 - 2.0 * 2 * CONTACT, 2.0), rel=1e-6)


def test_a_fuse_of_a_regulator_lies_before_it() -> None:
    kit = "kit: {pack: house/pack, reg: house/regulated, load: house/usb-motor}"
    rig = f"{kit}\ndocks: [pack.out > reg.in, reg.out > load.dc_in]"
    fused = REGULATED.replace("efficiency: 80 %", "efficiency: 80 %, fuse: {amps: 3 A, inside: true}")
    studies, setup = make_studies(rig, PARTS + fused)
    point = studies.power(setup).points[Point.FULL]
    (fuse,) = list_inner_fuses(studies.power(setup), point.solution)
    # 12.5 W behind the pack, two contacts and 5 mohm
    ohms = PACK_OHMS + 2 * CONTACT + 0.005
    amps = 12.5 / ((16.8 + math.sqrt(16.8**2 - 4 * ohms * 12.5)) / 2)

    assert fuse.amps == pytest.approx(amps, rel=1e-6)
    assert (fuse.item, fuse.limit) == ("reg", 3.0)


def test_a_regulator_at_its_limit_gives_its_limit() -> None:
    point = regulate("house/ohm")

    assert port(point, "load.dc_in") == pytest.approx((3.0, 3.0), rel=1e-6)
    assert port(point, "reg.out")[0] == pytest.approx(3.0 * (1 + 2 * CONTACT), rel=1e-6)


def test_what_is_off_draws_and_gives_nothing_and_its_body_conducts() -> None:
    kit = "kit: {pack: house/pack, other: house/pack, box: house/box, motor: house/motor, heater: house/heater}"
    docks = "docks: [pack.out > box.a, box.b > other.out, other.out_2 > motor.dc_in, other.out_3 > heater.dc_in]"
    point = full(f"{kit}\n{docks}\nsetups: {{one: {{off: [other, heater]}}}}")

    assert port(point, "heater.dc_in")[1] == 0.0
    assert point.sources["other.pack"].amps == 0.0
    # six contacts between the pack and the motor: two at each of three docks
    assert port(point, "motor.dc_in") == pytest.approx((16.8 - 2.0 * (PACK_OHMS + 6 * CONTACT), 2.0), rel=1e-9)


PEAKING = f"""
house/peak-3: {{kind: accessory, rails: {{main: {{load: 2 A, peak: 5 A}}}}, ports: {{in: {{{PORT}, works: 5 to 20 V}}}}}}
house/peak-2: {{kind: accessory, rails: {{main: {{load: 0.5 A, peak: 2.5 A}}}}, ports: {{in: {{{PORT}, works: 5 to 20 V}}}}}}
house/peak-1: {{kind: accessory, rails: {{main: {{load: 3 A, peak: 4 A}}}}, ports: {{in: {{{PORT}, works: 5 to 20 V}}}}}}
"""


def test_the_change_point_by_hand() -> None:
    kit = (
        "kit: {pack: house/pack, a: house/peak-3, b: house/peak-2, c: house/peak-1, other: house/pack, d: house/peak-1}"
    )
    docks = "docks: [pack.out > a.in, pack.out_2 > b.in, pack.out_3 > c.in, other.out > d.in]"
    points = study(f"{kit}\n{docks}", PEAKING).points
    # 15 % left is 3.50 V of 3.00 to 4.20 V: 12 + 4.8 x 0.50 / 1.20 = 14.0 V. The two largest extras of those on one
    # pack are 3 A and 2 A: 5 + 2.5 + 3 = 10.5 A. The load on the other pack has no rival: 4 A.
    change, typical = points[Point.CHANGE].sources, points[Point.TYPICAL].sources

    assert change["pack.pack"].amps == pytest.approx(10.5, rel=1e-9)
    assert change["pack.pack"].volts == pytest.approx(14.0 - 10.5 * 1.5 * PACK_OHMS, rel=1e-9)
    assert change["other.pack"].amps == pytest.approx(4.0, rel=1e-9)
    assert (typical["pack.pack"].amps, typical["pack.pack"].volts) == pytest.approx((5.5, 14.4 - 5.5 * PACK_OHMS))


def test_a_source_that_is_off_makes_no_group_of_loads_that_peak_together() -> None:
    kit = "kit: {pack: house/pack, other: house/pack, a: house/peak-3, b: house/peak-2, c: house/peak-1}"
    diode = lead("{from: a.1, to: b.1, diode: 0.4 V}, {from: a.2, to: b.2}", "10 cm")
    rest = """
docks: [pack.out > a.in, pack.out_2 > b.in, other.out_2 > c.in]
leads: {P1: {part: house/lead, from: pack.out_3, to: other.out}}
setups: {one: {off: [other]}}
"""
    figures = House(power=PowerFigures(peaks=1))
    power = study(f"{kit}{rest}", PEAKING + diode, figures)

    assert [power.circuit.loads[index].item for index in power.peaking] == ["a"]


USB = """
house/bank:
  kind: battery
  cells: {pack: {volts: 12.0 to 16.8 V, resistance: 100 mohm, rail: raw, energy: 72 Wh}}
  rails: {raw: {}, usb: {}}
  bridges: [{from: raw, to: usb, by: regulator, out: 5 V}]
  ports: {out: {connector: usb-c, sex: socket, rail: usb, role: out, pins: {vbus: plus, gnd: minus, cc: cc}, speaks: [usb-pd], offers: [5 V, 9 V, 15 V]}}
house/lamp: {kind: light, rails: {main: {load: 1 A}}, ports: {usb: {connector: usb-c, sex: socket, works: 4 to 16 V, pins: {vbus: plus, gnd: minus, cc: cc}, speaks: [usb-pd], wants: 15 V}}}
house/small: {kind: light, like: house/lamp, name: Small, ports: {usb: {wants: 12 V}}}
house/deaf: {kind: light, like: house/lamp, name: Deaf, ports: {usb: {speaks: []}}}
house/usb: {kind: lead, ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}, conductors: straight, carries: [usb-pd]}
house/charge: {kind: lead, ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}, conductors: straight, carries: []}
"""


@pytest.mark.parametrize(
    ("lamp", "cable", "volts"),
    [
        ("house/lamp", "house/usb", 15.0),
        ("house/small", "house/usb", 9.0),  # the highest offer not above what it wants
        ("house/deaf", "house/usb", 5.0),
        ("house/lamp", "house/charge", 5.0),
    ],
)
def test_usb_power_is_negotiated_where_both_ends_speak_it_and_the_lead_carries_it(
    lamp: str, cable: str, volts: float
) -> None:
    rig = f"kit: {{bank: house/bank, lamp: {lamp}}}\nleads: {{U1: {{part: {cable}, from: bank.out, to: lamp.usb}}}}"
    point = study(rig, USB).points[Point.TYPICAL]

    assert port(point, "bank.out") == pytest.approx((volts, -1.0), rel=1e-6)


@pytest.mark.parametrize(("metres", "collapses"), [(5, False), (9, False), (11, True), (20, True)])
def test_the_margin_is_the_power_limit_of_the_loads_own_lead_over_its_load(metres: int, collapses: bool) -> None:
    thin = lead(pair("gauge: 24 AWG"), f"{metres} m")
    point = full(ONE_CAMERA, thin)
    # no operating point beyond E2 / 4R (maximum power transfer)
    ohms = PACK_OHMS + 2 * metres * 84.215e-3 * 1.02 + 4 * CONTACT
    limit = 16.8**2 / (4 * ohms) / 40

    assert point.margin == pytest.approx(limit, rel=3e-4)
    assert point.collapsed is collapses
    assert point.weak == ("camera" if collapses else None)


def test_a_load_under_its_window_draws_as_the_resistance_that_it_is_at_its_lower_end() -> None:
    point = full(ONE_CAMERA, lead(pair("gauge: 24 AWG"), "20 m"))
    ohms = PACK_OHMS + 2 * 20 * 84.215e-3 * 1.02 + 4 * CONTACT
    own = 11.0**2 / 40

    assert point.solved
    assert port(point, "camera.dc_in")[0] == pytest.approx(16.8 * own / (own + ohms), rel=1e-4)


def test_two_unequal_packs_in_parallel() -> None:
    kit = "kit: {fresh: house/pack, mains: house/stiff, box: house/box, motor: house/motor}"
    docks = "docks: [fresh.out > box.a, box.b > mains.out, mains.out_2 > motor.dc_in]"
    point = full(f"{kit}\n{docks}")
    # Millman at the supply's terminals: 16.8 V behind 0.1 + 4 contacts, 14.8 V behind 0.1, 2 A drawn
    far = PACK_OHMS + 4 * CONTACT
    volts = (16.8 / far + 14.8 / PACK_OHMS - 2.0) / (1 / far + 1 / PACK_OHMS)

    assert point.sources["mains.mains"].volts == pytest.approx(volts, rel=1e-9)
    assert point.sources["mains.mains"].amps == pytest.approx((14.8 - volts) / PACK_OHMS, rel=1e-9)
    assert point.sources["fresh.pack"].amps == pytest.approx((16.8 - volts) / far, rel=1e-9)


BALANCED = """
kit:
  pack: house/pack
  box: house/box
  reg: house/regulated
  camera: house/camera
  motor: house/usb-motor
  heater: house/heater
docks: [box.b > reg.in]
leads:
  P1: {part: house/lead, from: pack.out, to: box.a}
  P2: {part: house/lead, from: pack.out_2, to: camera.dc_in, length: 40 cm}
  P3: {part: house/lead, from: reg.out, to: motor.dc_in, length: 30 cm}
  P4: {part: house/lead, from: pack.out_3, to: heater.dc_in}
"""


@pytest.mark.parametrize("name", list(Point))
def test_the_energy_balance_holds_in_the_json(name: Point) -> None:
    """Each lead and dock turns into heat what its ports give and do not take; the rest is what the items draw."""
    report = gather_power(make_rig(BALANCED, PARTS + REGULATED + lead(pair("gauge: 20 AWG"))), House(), ["as_wired"])
    setup: dict[str, Any] = json.loads(render_power_json("0", report))["setups"]["as_wired"]
    point = setup[name.value]
    watts = {place: found["watts"] for place, found in point["ports"].items()}
    ends = {
        "P1": ("pack.out", "box.a"),
        "P2": ("pack.out_2", "camera.dc_in"),
        "P3": ("reg.out", "motor.dc_in"),
        "P4": ("pack.out_3", "heater.dc_in"),
    }
    given = -sum(value for place, value in watts.items() if place.startswith("pack."))
    lost = -sum(watts[end] for both in ends.values() for end in both) - watts["box.b"] - watts["reg.in"]
    heat = {label: point["leads"][label]["drop"] * abs(point["ports"][far]["amps"]) for label, (_, far) in ends.items()}
    drawn = watts["camera.dc_in"] + watts["motor.dc_in"] + watts["heater.dc_in"]
    in_regulator = watts["reg.in"] + watts["reg.out"]

    assert given == pytest.approx(point["sources"]["pack.pack"]["watts"], rel=1e-5)
    assert given == pytest.approx(drawn + in_regulator + lost, rel=1e-5)
    assert in_regulator == pytest.approx(0.2 * watts["reg.in"], rel=1e-4)
    for label, (near, far) in ends.items():
        assert heat[label] == pytest.approx(-watts[near] - watts[far], abs=2e-4)  # six digits of up to 100 W


def test_an_island_without_a_source_sits_at_zero_and_a_rig_without_loads_draws_nothing() -> None:
    kit = "kit: {box: house/box, motor: house/motor, pack: house/pack}\ndocks: [box.a > motor.dc_in]"
    point = full(kit)

    assert port(point, "motor.dc_in") == (0.0, 0.0)
    assert point.sources["pack.pack"].amps == pytest.approx(0.0, abs=1e-9)
    assert not point.collapsed


def test_a_pack_straight_across_another_circulates_by_hand() -> None:
    kit = "kit: {fresh: house/pack, mains: house/stiff}\ndocks: [fresh.out > mains.out]"
    point = full(kit)

    assert point.sources["fresh.pack"].amps == pytest.approx(2.0 / (2 * PACK_OHMS + 2 * CONTACT), rel=1e-9)
    assert point.sources["mains.mains"].amps == pytest.approx(-2.0 / (2 * PACK_OHMS + 2 * CONTACT), rel=1e-9)
