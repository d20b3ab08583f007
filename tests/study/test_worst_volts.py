"""Worst volts on small rigs, each worked out by hand: one mechanism a table."""

from __future__ import annotations

import pytest

from rigmint.graph.pins import JoinKind
from rigmint.rig.rig import PortRef
from rigmint.study.worst_volts import WorstVolts
from tests.builders import make_studies

# Contacts of 0b-2 are written plus first, so that a lead in one line joins plus to plus.
PORT = "connector: 0b-2, pins: {1: plus, 2: minus}"
PARTS = f"""
house/pack: {{kind: battery, cells: {{pack: {{volts: 12.0 to 16.8 V}}}}, ports: {{out: {{{PORT}}}}}}}
house/supply: {{kind: supply, cells: {{mains: {{volts: 24 V, spikes: 40 V}}}}, ports: {{out: {{{PORT}}}}}}}
house/box: {{kind: accessory, ports: {{a: {{{PORT}}}, b: {{{PORT}}}}}}}
house/isolated: {{kind: accessory, ports: {{a: {{{PORT}}}, b: {{{PORT}, isolated: true}}}}}}
house/metal: {{kind: accessory, chassis: minus, ports: {{a: {{{PORT}}}, foot: {{connector: quick-plate}}}}}}
house/earthed: {{kind: accessory, chassis: earth, ports: {{a: {{{PORT}}}}}}}
house/earthed-pack: {{kind: supply, chassis: earth, cells: {{pack: {{volts: 12 V}}}}, ports: {{out: {{{PORT}}}}}}}
house/crossed: {{kind: lead, ends: {{a: {{connector: 0b-2}}, b: {{connector: 0b-2}}}}, conductors: [{{from: a.1, to: b.2}}, {{from: a.2, to: b.1}}]}}
house/plus-only: {{kind: lead, ends: {{a: {{connector: 0b-2}}, b: {{connector: 0b-2}}}}, conductors: [{{from: a.1, to: b.1}}]}}
house/bridged: {{kind: lead, ends: {{a: {{connector: 0b-2}}, b: {{connector: 0b-2}}}}, conductors: [{{from: a.1, to: b.1}}, {{from: a.2, to: b.2}}, {{from: a.1, to: b.2}}]}}
house/diode: {{kind: lead, ends: {{a: {{connector: 0b-2}}, b: {{connector: 0b-2}}}}, conductors: [{{from: a.1, to: b.1, diode: 0.7 V}}, {{from: a.2, to: b.2}}]}}
house/minus-diode: {{kind: lead, ends: {{a: {{connector: 0b-2}}, b: {{connector: 0b-2}}}}, conductors: [{{from: a.1, to: b.1}}, {{from: b.2, to: a.2, diode: 0.7 V}}]}}
house/lead-regulator: {{kind: lead, ends: {{a: {{connector: 0b-2}}, b: {{connector: 0b-2}}}}, conductors: [{{from: a.1, to: b.1, regulator: {{out: 8 V, blocks: true, ground: b.2}}}}, {{from: a.2, to: b.2}}]}}
"""


def study(rig: str, parts: str = PARTS) -> WorstVolts:
    """The worst volts of a rig."""
    studies, setup = make_studies(rig, parts)
    return studies.worst_volts(setup)


def read_volts(worst: WorstVolts, place: str) -> tuple[float | None, float | None]:
    """Lowest and highest V at a port, to a microvolt."""
    item, _, port = place.partition(".")
    found = worst.ports[PortRef(item, port)]
    low, high = (round(reach.volts, 6) if reach is not None else None for reach in (found.low, found.high))
    return low, high


def volts_of_bridge(bridge: str, feed: str = "in") -> dict[str, tuple[float | None, float | None]]:
    """Volts at both sides of a bridge from rail `in` to rail `out`, fed with 16.8 V at one side."""
    part = f"""
house/bridged-box:
  kind: accessory
  rails: {{in: {{}}, out: {{}}}}
  settings: {{tap: {{values: [on, off], default: off}}}}
  bridges: [{bridge}]
  ports: {{in: {{{PORT}, rail: in}}, out: {{{PORT}, rail: out}}}}
"""
    worst = study(
        f"kit: {{pack: house/pack, box: house/bridged-box}}\nleads: {{P1: pack.out > box.{feed}}}", PARTS + part
    )
    return {port: read_volts(worst, f"box.{port}") for port in ("in", "out")}


NONE = (None, None)
FULL = (16.8, 16.8)


@pytest.mark.parametrize(
    ("bridge", "feed", "at_in", "at_out"),
    [
        ("{from: in, to: out, by: wire}", "in", FULL, FULL),
        ("{from: in, to: out, by: wire, fuse: 3 A}", "out", FULL, FULL),
        # every switch counts as closable
        ("{from: in, to: out, by: switch, when: {tap: on}}", "in", FULL, FULL),
        ("{from: in, to: out, by: switch, when: {tap: on}}", "out", FULL, FULL),
        # a diode: 16.8 - 0.4, and nothing backwards
        ("{from: in, to: out, by: diode}", "in", FULL, (16.4, 16.4)),
        ("{from: in, to: out, by: diode, drop: 0.7 V}", "in", FULL, (16.1, 16.1)),
        ("{from: in, to: out, by: diode}", "out", NONE, FULL),
        # a regulator forward gives its output
        ("{from: in, to: out, by: regulator, out: 5 V}", "in", FULL, (5.0, 5.0)),
        # backwards as it says: blocks, conducts, or does not say; then 16.8 - 0.7
        ("{from: in, to: out, by: regulator, out: 5 V, blocks: true}", "out", NONE, FULL),
        ("{from: in, to: out, by: regulator, out: 5 V, blocks: false}", "out", (16.1, 16.1), FULL),
        ("{from: in, to: out, by: regulator, out: 5 V}", "out", (16.1, 16.1), FULL),
        # what it takes: from 0.5 V above its output, from 1 V where it lifts, or as stated
        ("{from: in, to: out, by: regulator, out: 16.3 V}", "in", FULL, (16.3, 16.3)),
        ("{from: in, to: out, by: regulator, out: 16.4 V}", "in", FULL, NONE),
        ("{from: in, to: out, by: regulator, out: 24 V, lifts: true}", "in", FULL, (24.0, 24.0)),
        ("{from: in, to: out, by: regulator, out: 24 V, takes: 9 to 30 V}", "in", FULL, (24.0, 24.0)),
        ("{from: in, to: out, by: regulator, out: 5 V, takes: 17 to 30 V}", "in", FULL, NONE),
    ],
)  # fmt: skip
def test_a_bridge(
    bridge: str, feed: str, at_in: tuple[float | None, float | None], at_out: tuple[float | None, float | None]
) -> None:
    assert volts_of_bridge(bridge, feed) == {"in": at_in, "out": at_out}


def test_two_regulators_in_a_row() -> None:
    part = f"""
house/chain:
  kind: accessory
  rails: {{in: {{}}, mid: {{}}, out: {{}}}}
  bridges: [{{from: in, to: mid, by: regulator, out: 12 V}}, {{from: mid, to: out, by: diode}}, {{from: mid, to: out, by: regulator, out: 11.9 V, lifts: true}}]
  ports: {{in: {{{PORT}, rail: in}}, out: {{{PORT}, rail: out}}}}
"""
    worst = study("kit: {pack: house/pack, box: house/chain}\nleads: {P1: pack.out > box.in}", PARTS + part)

    assert read_volts(worst, "box.out") == (11.9, 11.9)


@pytest.mark.parametrize(
    ("lead", "low", "high"),
    [
        ("P1: pack.out > box.a", 16.8, 16.8),
        ("P1: {part: house/crossed, from: pack.out, to: box.a}", -16.8, -16.8),
        ("P1: {part: house/plus-only, from: pack.out, to: box.a}", None, None),
        ("P1: {part: house/diode, from: pack.out, to: box.a}", 16.1, 16.1),
        ("P1: {part: house/diode, from: box.a, to: pack.out}", None, None),
        ("P1: {part: house/minus-diode, from: pack.out, to: box.a}", 16.1, 16.1),
        ("P1: {part: house/minus-diode, from: box.a, to: pack.out}", None, None),
        ("P1: {part: house/lead-regulator, from: pack.out, to: box.a}", 8.0, 8.0),
        ("P1: {part: house/lead-regulator, from: box.a, to: pack.out}", None, None),
        ("P1: {part: house/crossed, from: pack.out, to: loose}", None, None),
    ],
)
def test_a_lead(lead: str, low: float | None, high: float | None) -> None:
    worst = study(f"kit: {{pack: house/pack, box: house/box}}\nleads: {{{lead}}}")

    assert read_volts(worst, "box.a") == (low, high)
    assert read_volts(worst, "box.b") == (low, high)


def test_a_second_crossed_lead_turns_the_polarity_back() -> None:
    worst = study(
        "kit: {pack: house/pack, one: house/box, two: house/box}\n"
        "leads: {P1: {part: house/crossed, from: pack.out, to: one.a}, P2: {part: house/crossed, from: one.b, to: two.a}}"
    )

    assert (read_volts(worst, "one.b"), read_volts(worst, "two.b")) == ((-16.8, -16.8), (16.8, 16.8))


@pytest.mark.parametrize(("out", "volts"), [("", 40.0), ("setups: {s: {off: [mains]}}", None)])
def test_a_supply_spikes_and_gives_nothing_when_it_is_off(out: str, volts: float | None) -> None:
    worst = study(f"kit: {{mains: house/supply, box: house/box}}\nleads: {{P1: mains.out > box.a}}\n{out}")

    assert read_volts(worst, "box.a") == (volts, volts)


def test_nominal_volts_are_those_that_last() -> None:
    studies, setup = make_studies("kit: {mains: house/supply, box: house/box}\nleads: {P1: mains.out > box.a}", PARTS)

    assert read_volts(studies.nominal_volts(setup), "box.b") == (24.0, 24.0)


def test_a_body_that_is_off_conducts() -> None:
    worst = study(
        "kit: {pack: house/pack, one: house/box, two: house/box}\n"
        "leads: {P1: pack.out > one.a, P2: one.b > two.a}\nsetups: {s: {off: [one]}}"
    )

    assert read_volts(worst, "two.a") == FULL


def test_a_body_that_is_out_does_not() -> None:
    worst = study(
        "kit: {pack: house/pack, one: house/box, two: house/box}\n"
        "leads: {P1: pack.out > one.a, P2: one.b > two.a}\nsetups: {s: {out: [one]}}"
    )

    assert read_volts(worst, "two.a") == NONE


def test_the_higher_and_the_lower_of_two_sources() -> None:
    worst = study(
        "kit: {pack: house/pack, mains: house/supply, box: house/box}\n"
        "leads: {P1: pack.out > box.a, P2: {part: house/crossed, from: mains.out, to: box.b}}"
    )
    found = worst.ports[PortRef("box", "a")]

    assert read_volts(worst, "box.a") == (-40.0, 16.8)
    assert found.high is not None
    assert found.low is not None
    assert (found.high.source.place, found.low.source.place) == ("pack.pack", "mains.mains")


ISOLATED_KIT = "kit: {pack: house/pack, iso: house/isolated, box: house/box}\n"


@pytest.mark.parametrize(
    ("leads", "volts"),
    [
        ("P1: pack.out > iso.a, P2: iso.b > box.a", None),
        ("P1: pack.out > iso.a, P2: iso.b > box.a, R: {part: house/minus-only, from: pack.out, to: box.b}", 16.8),
    ],
)
def test_an_isolated_port_has_a_minus_of_its_own(leads: str, volts: float | None) -> None:
    ends = "ends: {a: {connector: 0b-2}, b: {connector: 0b-2}}"
    minus_only = f"house/minus-only: {{kind: lead, {ends}, conductors: [{{from: a.2, to: b.2}}]}}\n"
    worst = study(f"{ISOLATED_KIT}leads: {{{leads}}}", PARTS + minus_only)

    assert read_volts(worst, "box.a") == (volts, volts)


def test_metal_bodies_that_are_docked_share_ground() -> None:
    # The plus comes by a lead without minus, the minus by two metal bodies, 5 mohm between them.
    rig = """
kit: {pack: house/pack, one: house/metal, two: house/metal}
docks: [one.foot > two.foot]
leads: {P1: pack.out > one.a, P2: {part: house/plus-only, from: one.a, to: two.a}}
"""
    studies, setup = make_studies(rig, PARTS)
    bonds = [join.ohms for join in studies.network(setup).joins if join.kind is JoinKind.BOND]

    assert read_volts(studies.worst_volts(setup), "two.a") == FULL
    assert bonds == [0.005]


def test_bodies_that_are_not_metal_do_not() -> None:
    parts = PARTS.replace("chassis: minus", "chassis: open")
    worst = study(
        "kit: {pack: house/pack, one: house/metal, two: house/metal}\ndocks: [one.foot > two.foot]\n"
        "leads: {P1: pack.out > one.a, P2: {part: house/plus-only, from: one.a, to: two.a}}",
        parts,
    )

    assert read_volts(worst, "two.a") == NONE


def test_earth_is_one_return() -> None:
    worst = study(
        "kit: {mains: house/earthed-pack, box: house/earthed, open: house/box}\n"
        "leads: {P1: {part: house/plus-only, from: mains.out, to: box.a}, P2: {part: house/plus-only, from: mains.out, to: open.a}}"
    )

    assert (read_volts(worst, "box.a"), read_volts(worst, "open.a")) == ((12.0, 12.0), NONE)


VIDEO = f"""
house/screen:
  kind: monitor
  ports: {{dc: {{{PORT}}}, sdi: {{connector: bnc, pins: {{centre: video, shield: minus}}}}}}
house/hdmi-screen: {{kind: monitor, ports: {{dc: {{{PORT}}}, hdmi: {{connector: hdmi-a, pins: {{tmds: tmds}}}}}}}}
"""


@pytest.mark.parametrize(("kind", "port"), [("screen", "sdi"), ("hdmi-screen", "hdmi")])
def test_a_shield_is_a_return(kind: str, port: str) -> None:
    worst = study(
        f"kit: {{pack: house/pack, one: house/{kind}, two: house/{kind}}}\n"
        f"leads: {{P1: pack.out > one.dc, P2: {{part: house/plus-only, from: one.dc, to: two.dc}}, V: one.{port} > two.{port}}}",
        PARTS + VIDEO,
    )

    assert read_volts(worst, "two.dc") == FULL


def test_plus_on_a_shield_is_a_short() -> None:
    # The crossed lead lifts the ground of the second screen to plus; the shield brings it back to minus.
    worst = study(
        "kit: {pack: house/pack, one: house/screen, two: house/screen}\n"
        "leads: {P1: pack.out > one.dc, P2: {part: house/crossed, from: one.dc, to: two.dc}, V: one.sdi > two.sdi}",
        PARTS + VIDEO,
    )

    assert [reach.source.place for reach in worst.shorts] == ["pack.pack"]
    assert {volts.high for volts in worst.ports.values()} == {None}


@pytest.mark.parametrize(
    ("leads", "is_short"),
    [
        ("P1: {part: house/bridged, from: pack.out, to: box.a}", True),
        ("P1: pack.out > box.a, P2: {part: house/crossed, from: box.b, to: pack.out}", True),
        ("P1: pack.out > box.a, P2: {part: house/crossed, from: box.b, to: two.a}", False),
    ],
)
def test_a_short_is_found_and_not_averaged(leads: str, is_short: bool) -> None:
    worst = study(f"kit: {{pack: house/pack, box: house/box, two: house/box, far: house/pack, own: house/box}}\n"
                  f"leads: {{{leads}, P9: far.out > own.a}}")  # fmt: skip

    assert [reach.source.place for reach in worst.shorts] == (["pack.pack"] if is_short else [])
    assert read_volts(worst, "own.b") == FULL  # another island goes on


@pytest.mark.parametrize(
    ("part", "is_short"),
    [
        ("{from: in, to: out, by: regulator, out: 5 V}", True),
        ("{from: in, to: out, by: diode}", True),
    ],
)
def test_a_short_behind_a_regulator_or_a_diode(part: str, is_short: bool) -> None:
    box = f"""
house/bridged-box:
  kind: accessory
  rails: {{in: {{}}, out: {{}}}}
  bridges: [{part}]
  ports: {{in: {{{PORT}, rail: in}}, out: {{{PORT}, rail: out}}}}
"""
    worst = study(
        "kit: {pack: house/pack, box: house/bridged-box, end: house/box}\n"
        "leads: {P1: pack.out > box.in, P2: {part: house/bridged, from: box.out, to: end.a}}",
        PARTS + box,
    )

    assert bool(worst.shorts) is is_short


USB = """
house/charger:
  kind: supply
  cells: {mains: {volts: 20 V}}
  ports: {usb: {connector: usb-c, sex: socket, pins: {vbus: plus, gnd: minus}, offers: [5 V, 9 V, 15 V], speaks: [usb-pd]}}
house/usb-box:
  kind: monitor
  ports: {usb: {connector: usb-c, sex: socket, pins: {vbus: plus, gnd: minus}, WANTS speaks: [SPEAKS]}}
house/usb-lead:
  kind: lead
  ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}
  conductors: [{from: a.vbus, to: b.vbus}, {from: a.gnd, to: b.gnd}, {from: a.cc, to: b.cc}]
  carries: [CARRIES]
"""


@pytest.mark.parametrize(
    ("wants", "speaks", "carries", "volts"),
    [
        ("wants: 15 V,", "usb-pd", "usb-pd", 15.0),
        ("wants: 12 V,", "usb-pd", "usb-pd", 9.0),
        ("wants: 20 V,", "usb-pd", "usb-pd", 15.0),
        ("wants: 4 V,", "usb-pd", "usb-pd", 5.0),
        ("", "usb-pd", "usb-pd", 5.0),
        ("wants: 15 V,", "", "usb-pd", 5.0),
        ("wants: 15 V,", "usb-pd", "", 5.0),
    ],
)
def test_usb_power_delivery(wants: str, speaks: str, carries: str, volts: float) -> None:
    # IEC 62680-1-2: 5 V until both ends have negotiated more over the CC wire.
    parts = USB.replace("WANTS", wants).replace("SPEAKS", speaks).replace("CARRIES", carries)
    worst = study(
        "kit: {mains: house/charger, box: house/usb-box}\nleads: {U: {part: house/usb-lead, from: mains.usb, to: box.usb}}",
        parts,
    )

    assert read_volts(worst, "box.usb") == (volts, volts)


def test_without_a_cc_wire_nothing_is_negotiated() -> None:
    parts = USB.replace("WANTS", "wants: 15 V,").replace("SPEAKS", "usb-pd").replace("CARRIES", "usb-pd")
    worst = study(
        "kit: {mains: house/charger, box: house/usb-box}\nleads: {U: {part: house/usb-lead, from: mains.usb, to: box.usb}}",
        parts.replace(", {from: a.cc, to: b.cc}", ""),
    )

    assert read_volts(worst, "box.usb") == (5.0, 5.0)


SIGNAL = """
house/signal: {kind: camera, ports: {run: {connector: 0b-2, pins: {1: trigger, 2: minus} LEVELS}}}
"""


@pytest.mark.parametrize(
    ("levels", "limit", "is_assumed"),
    [
        ("", 3.6, True),
        (", levels: {trigger: {takes: closure}}", 3.6, True),
        (", levels: {trigger: {takes: 5 V}}", 5.5, True),
        (", levels: {trigger: {takes: 1.8 V}}", 3.6, True),
        (", levels: {trigger: {takes: 5 V, survives: 0 to 12 V}}", 12.0, False),
    ],
)
def test_plus_on_a_signal_contact(levels: str, limit: float, is_assumed: bool) -> None:
    worst = study("kit: {pack: house/pack, cam: house/signal}\nleads: {P1: pack.out > cam.run}",
                  PARTS + SIGNAL.replace("LEVELS", levels))  # fmt: skip

    (found,) = worst.signals

    assert (found.ref.place, found.signal, found.limit_assumed) == ("cam.run", "trigger", is_assumed)
    assert (found.limit, found.reach.volts) == pytest.approx((limit, 16.8))


def test_plus_within_what_a_signal_contact_survives() -> None:
    parts = PARTS + SIGNAL.replace("LEVELS", ", levels: {trigger: {survives: 0 to 16.8 V}}")
    worst = study("kit: {pack: house/pack, cam: house/signal}\nleads: {P1: pack.out > cam.run}", parts)

    assert worst.signals == ()


def test_ends_that_do_not_mate_are_open() -> None:
    parts = (
        PARTS + "house/socket: {kind: camera, ports: {dc: {connector: 0b-2, sex: socket, pins: {1: plus, 2: minus}}}}"
    )
    sexes = "lead: {ends: {a: {connector: 0b-2}, b: {connector: 0b-2, sex: socket}}, conductors: straight}"
    worst = study(
        f"kit: {{pack: house/pack, cam: house/socket}}\nleads: {{P1: {{from: pack.out, to: cam.dc, {sexes}}}}}", parts
    )

    assert read_volts(worst, "cam.dc") == NONE
    assert [(mate.lead, mate.end) for mate in worst.network.misfits] == [("P1", "b")]


def test_the_way_of_the_volts() -> None:
    worst = study(
        "kit: {pack: house/pack, one: house/box, two: house/box}\n"
        "leads: {P1: pack.out > one.a, P2: {part: house/crossed, from: one.b, to: two.a}}"
    )
    ref = PortRef("two", "b")
    low = worst.ports[ref].low

    assert low is not None

    way = worst.way_to(ref, low)

    assert way.places == ("pack", "pack.out", "P1", "one.a", "one.b", "P2", "two.a", "two.b")
    assert (way.leads, way.guessed) == (("P1", "P2"), False)


def test_the_volts_without_a_lead() -> None:
    studies, setup = make_studies(
        "kit: {pack: house/pack, one: house/box, two: house/box}\n"
        "leads: {P1: pack.out > one.a, P2: one.b > two.a, P3: pack.out > two.b}",
        PARTS,
    )
    found = {label: read_volts(studies.worst_volts_without(setup, label), "two.a") for label in ("P1", "P3")}

    assert found == {"P1": FULL, "P3": FULL}
    assert read_volts(studies.worst_volts_without(setup, "P1"), "one.a") == FULL
