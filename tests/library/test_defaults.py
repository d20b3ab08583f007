"""Defaults of the format: what stands in where a file says nothing, each marked as assumed."""

from __future__ import annotations

import math

import pytest

from rigmint.rig.connector import Connector, Sex
from rigmint.rig.electric import Draw, LoadKind, Port, Role, Window
from rigmint.rig.lead import Conductor
from rigmint.rig.part import Part
from tests.builders import make_library, make_rig

PARTS = """
house/camera:
  kind: camera
  rails: {main: {load: 40 W}}
  ports:
    ring: {connector: 0b-2, sex: socket}
    stated: {connector: 0b-2, sex: female, pins: plus-first, role: in, works: 10 to 20 V, survives: -18 to 18 V, max: 3 A}
    worked: {connector: 0b-2, works: 10 to 20 V}
    out: {connector: 0b-2, role: out}
    usb: {connector: usb-c}
    usb_works: {connector: usb-c, works: 4.75 to 20 V}
    run: {connector: 0b-4, pins: {1: minus, 2: trigger}}
    xlr: {connector: xlr4}
    pin3: {connector: 3pin-24v}
    wedge: {connector: plate-wedge-26v}
    sdi: {connector: bnc, pins: {centre: video}}
house/pack:
  kind: battery
  cells:
    four: {volts: 12.0 to 16.8 V, energy: 98 Wh, max: 10 A}
    half: {volts: 12.0 to 16.8 V, energy: 49 Wh}
    supply: {volts: 24 V, trips: none, charge: 2 A, nominal: 24.5 V, resistance: 5 mohm}
  ports: {tap: {connector: d-tap, sex: socket}}
house/plate: {kind: plate, ports: {tap: {connector: d-tap, sex: socket}, bat: {connector: plate-wedge, sex: socket}}}
house/two-rails:
  kind: head
  rails: {main: {load: 1 A, peak: 2 A}, ohmic: {load: 100 ohm}, start: {load: 3 W, start: 25 W}}
  ports: {in: {connector: 0b-2}, either: {connector: 0b-2, rail: ohmic}}
  bridges: [{from: main, to: ohmic, by: regulator, out: 5 V}, {from: main, to: start, by: regulator, out: 12 V, lifts: true}, {from: main, to: start, by: diode}, {from: main, to: start, by: switch}]
"""


def part(name: str) -> Part:
    """A part of the house."""
    found = make_library(PARTS).catalogue.part(f"house/{name}")
    assert found is not None, make_library(PARTS).catalogue.faults_of(f"house/{name}")
    return found


def connector(name: str) -> Connector:
    """A connector of the catalogue."""
    return make_library().catalogue.tokens.connectors[name]


def power_of(port: Port) -> tuple[Role, Window | None, Window | None, set[str]]:
    """Role, window, limits, and which of these are assumed."""
    return port.role, port.works, port.survives, {"role", "works", "survives"} & port.assumed


ALL = {"role", "works", "survives"}


@pytest.mark.parametrize(
    ("name", "role", "works", "survives", "assumed"),
    [
        ("ring", Role.IN, Window(11, 17), Window(-0.3, 17 * 1.1), ALL),
        ("stated", Role.IN, Window(10, 20), Window(-18, 18), set()),
        ("worked", Role.IN, Window(10, 20), Window(-0.3, 22), {"role", "survives"}),
        ("out", Role.OUT, None, None, {"survives"}),
        ("usb", Role.IN, Window(4.75, 5.5), Window(-0.3, 5.5), ALL),
        ("usb_works", Role.IN, Window(4.75, 20), Window(-0.3, 22), {"role", "survives"}),
        ("xlr", Role.IN, Window(11, 17), Window(-0.3, 17 * 1.1), ALL),
        ("pin3", Role.IN, Window(20, 34), Window(-0.3, 34 * 1.1), ALL),
        ("wedge", Role.IN, Window(21, 30), Window(-0.3, 33), ALL),
        ("run", Role.EITHER, None, None, {"role"}),
        ("sdi", Role.EITHER, None, None, {"role"}),
    ],
)
def test_power_of_a_port(
    name: str, role: Role, works: Window | None, survives: Window | None, assumed: set[str]
) -> None:
    port = part("camera").ports[name]
    limits = port.survives

    assert (port.role, port.works, {"role", "works", "survives"} & port.assumed) == (role, works, assumed)
    assert (limits is None) == (survives is None)
    if limits is not None and survives is not None:
        assert (limits.low, limits.high) == pytest.approx((survives.low, survives.high))


def test_a_port_of_a_part_with_a_cell_gives() -> None:
    assert power_of(part("pack").ports["tap"])[0] is Role.OUT


def test_a_port_of_a_part_without_cell_or_load_is_either() -> None:
    assert {port.role for port in part("plate").ports.values()} == {Role.EITHER}


def test_pins_are_the_first_usual_pin_out() -> None:
    ports = part("camera").ports

    assert (ports["ring"].pins, "pins" in ports["ring"].assumed) == ({"1": "minus", "2": "plus"}, True)
    assert (ports["stated"].pins, "pins" in ports["stated"].assumed) == ({"1": "plus", "2": "minus"}, False)
    assert ports["sdi"].pins == {"centre": "video", "shield": "minus"}


@pytest.mark.parametrize(
    ("name", "amps", "is_assumed"),
    [("stated", 3.0, False), ("ring", connector("0b-2").amps, True)],
)
def test_the_limit_of_a_port_is_that_of_its_connector(name: str, amps: float, is_assumed: bool) -> None:
    port = part("camera").ports[name]

    assert (port.max_amps, "max" in port.assumed) == (amps, is_assumed)


def test_male_and_female_are_plug_and_socket() -> None:
    ports = part("camera").ports

    assert (ports["stated"].sex, ports["worked"].sex) == (Sex.SOCKET, Sex.UNSTATED)


@pytest.mark.parametrize(
    ("name", "rail", "load", "peak", "start", "assumed"),
    [
        ("camera", "main", Draw(LoadKind.POWER, 40), Draw(LoadKind.POWER, 60), Draw(LoadKind.POWER, 60), {"peak", "start"}),
        ("two-rails", "main", Draw(LoadKind.CURRENT, 1), Draw(LoadKind.CURRENT, 2), Draw(LoadKind.CURRENT, 2), {"start"}),
        ("two-rails", "ohmic", Draw(LoadKind.RESISTANCE, 100), Draw(LoadKind.RESISTANCE, 100 / 1.5), Draw(LoadKind.RESISTANCE, 100 / 1.5), {"peak", "start"}),
        ("two-rails", "start", Draw(LoadKind.POWER, 3), Draw(LoadKind.POWER, 4.5), Draw(LoadKind.POWER, 25), {"peak"}),
    ],
)  # fmt: skip
def test_peak_and_start_of_a_rail(name: str, rail: str, load: Draw, peak: Draw, start: Draw, assumed: set[str]) -> None:
    found = part(name).rails[rail]

    assert (found.load, found.peak, found.start, set(found.assumed)) == (load, peak, start, assumed)


@pytest.mark.parametrize(
    ("name", "nominal", "ohms", "trips", "charge", "assumed"),
    [
        ("four", 14.4, 0.08, 15.0, 0.0, {"nominal", "resistance", "charge", "trips", "chemistry"}),
        ("half", 14.4, 0.16, None, 0.0, {"nominal", "resistance", "charge", "chemistry"}),
        ("supply", 24.5, 0.005, math.inf, 2.0, set()),
    ],
)
def test_a_cell(name: str, nominal: float, ohms: float, trips: float | None, charge: float, assumed: set[str]) -> None:
    cell = part("pack").cells[name]

    assert (cell.nominal, cell.resistance) == pytest.approx((nominal, ohms))
    assert (cell.trips, cell.charge, set(cell.assumed)) == (trips, charge, assumed)


def test_a_regulator() -> None:
    down, up = (bridge.regulator for bridge in part("two-rails").bridges[:2])

    assert down is not None
    assert up is not None
    assert (down.efficiency, down.takes.low, down.max_amps, down.blocks) == (0.9, 5.5, None, None)
    assert (up.takes.low, up.lifts) == (1.0, True)
    assert down.assumed == {"efficiency", "takes", "blocks"}


def test_a_diode_and_a_switch() -> None:
    diode, switch = part("two-rails").bridges[2:]

    assert (diode.drop, switch.resistance) == (0.4, 0.001)


@pytest.mark.parametrize(
    ("kind", "rides"),
    [
        ("head", "base"),
        ("carrier", "base"),
        *((kind, "away") for kind in ("hand_unit", "desk", "monitor", "receiver", "supply", "recorder")),
        *((kind, "tilt") for kind in ("camera", "lens", "plate", "sender", "light", "lens_motor", "accessory")),
    ],
)
def test_where_a_kind_rides(kind: str, rides: str) -> None:
    kinds = ("head", "carrier", "hand_unit", "desk", "monitor", "receiver", "supply", "recorder", "camera", "lens")
    others = ("plate", "sender", "light", "lens_motor", "accessory")
    parts = "\n".join(f"house/{one.replace('_', '-')}: {{kind: {one}}}" for one in (*kinds, *others))
    found = make_library(parts).catalogue.part(f"house/{kind.replace('_', '-')}")

    assert found is not None
    assert (found.rides, "rides" in found.assumed) == (rides, True)


LEADS = """
house/tap: {kind: plate, ports: {tap: {connector: d-tap, sex: socket}, two: {connector: 0b-2, sex: socket}}}
house/box:
  kind: camera
  rails: {main: {load: 1 W}}
  ports:
    dc: {connector: 0b-2, sex: socket}
    dc_2: {connector: 0b-2, sex: socket, pins: plus-first}
    usb: {connector: usb-c, sex: socket, pins: {vbus: plus, gnd: minus, dp: d_plus, dm: d_minus}}
    run: {connector: 0b-4, sex: socket, pins: {1: minus, 2: trigger}}
    run_2: {connector: 0b-4, sex: socket, pins: {1: minus, 2: trigger}}
"""


@pytest.mark.parametrize(
    ("ends", "pairs"),
    [
        ("tap.two > box.dc", {("1", "1"): 20, ("2", "2"): 20}),
        ("box.dc > other.dc", {("1", "1"): 22, ("2", "2"): 22}),
        ("box.dc > other.dc_2", {("1", "1"): 22, ("2", "2"): 22}),
        ("tap.tap > box.dc", {("1", "2"): 20, ("2", "1"): 20}),
        ("box.run > other.run_2", {("1", "1"): 22, ("2", "2"): 26, ("3", "3"): 26, ("4", "4"): 26}),
    ],
)
def test_a_lead_in_one_line(ends: str, pairs: dict[tuple[str, str], float]) -> None:
    lead = make_rig(f"kit: {{tap: house/tap, box: house/box, other: house/box}}\nleads: {{P1: {ends}}}", LEADS).leads[
        "P1"
    ]
    found = {(c.source.contact, c.target.contact): c.gauge for c in lead.body.conductors}

    assert (found, lead.length, set(lead.assumed)) == (pairs, 0.5, {"conductors", "length"})
    assert [end.sex for end in lead.body.ends.values()] == [Sex.PLUG, Sex.PLUG]


def test_a_usb_lead_in_one_line_has_thinner_power_wires() -> None:
    rig = make_rig("kit: {box: house/box, other: house/box}\nleads: {P1: box.usb > other.usb}", LEADS)
    gauges = {c.source.contact: c.gauge for c in rig.leads["P1"].body.conductors}

    assert (gauges["vbus"], gauges["gnd"], gauges["shield"], gauges["dp"]) == (24, 24, 26, 26)


def test_the_shell_of_a_usb_plug_is_no_return() -> None:
    ports = make_rig("kit: {box: house/box}", LEADS).items["box"].part.ports

    assert "shield" not in ports["usb"].pins


def test_a_stated_length_is_not_assumed() -> None:
    rig = make_rig("kit: {a: house/box, b: house/box}\nleads: {P1: {from: a.dc, to: b.dc, length: 2 m}}", LEADS)

    assert (rig.leads["P1"].length, set(rig.leads["P1"].assumed)) == (2.0, {"conductors"})


def fill(conductor: str) -> Conductor:
    """A conductor of a described lead between a power port and a record port."""
    lead = f"{{ends: {{a: {{connector: 0b-4}}, b: {{connector: 0b-4}}}}, conductors: [{conductor}]}}"
    rig = make_rig(
        f"kit: {{a: house/box, b: house/box}}\nleads: {{P1: {{from: a.run, to: b.run, lead: {lead}}}}}", LEADS
    )
    return rig.leads["P1"].body.conductors[0]


@pytest.mark.parametrize(
    ("conductor", "gauge", "area", "is_assumed"),
    [
        ("{from: a.1, to: b.1}", 22, None, True),
        ("{from: a.2, to: b.2}", 28, None, True),
        ("{from: a.1, to: b.1, gauge: 24 AWG}", 24, None, False),
        ("{from: a.1, to: b.1, area: 0.5 mm2}", None, 0.5e-6, False),
    ],
)
def test_gauge_of_a_described_conductor(
    conductor: str, gauge: float | None, area: float | None, is_assumed: bool
) -> None:
    found = fill(conductor)

    assert (found.gauge, found.area) == (gauge, pytest.approx(area) if area else None)
    assert ("gauge" in found.assumed) is is_assumed


def test_a_connector_that_states_no_figures() -> None:
    rigged = {name: one for name, one in make_library().catalogue.tokens.connectors.items() if not one.is_mechanical}
    silent = [one for one in rigged.values() if "contact" in one.assumed]

    assert all(one.contact_ohms == 0.01 for one in silent)
    assert all(one.amps is None for one in rigged.values() if "amps" in one.assumed)


def test_the_rig_lists_every_assumed_figure() -> None:
    rig = make_rig("kit: {tap: house/tap, box: house/box}\nleads: {P1: tap.tap > box.dc}", LEADS)

    assert {"box.dc pins", "box.dc works", "box main peak", "P1 conductors", "P1 length"} <= set(rig.assumed)
    assert "box.dc_2 pins" not in rig.assumed
    assert len(rig.assumed) == len(set(rig.assumed))
