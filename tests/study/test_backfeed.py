"""Feeds that arrive where feeds leave, and sources that meet: worked out by hand."""

from __future__ import annotations

import math

import pytest

from rigmint.rig.house import House, PowerFigures
from tests.builders import make_studies

PORT = "connector: 0b-2, pins: {1: plus, 2: minus}"
PARTS = f"""
house/pack: {{kind: battery, cells: {{pack: {{volts: 12.0 to 16.8 V, energy: 98 Wh, CHARGE}}}}, ports: {{out: {{{PORT}}}}}}}
house/supply: {{kind: supply, cells: {{mains: {{volts: 15 V, resistance: 10 mohm, charge: CHARGED}}}}, ports: {{out: {{{PORT}}}}}}}
house/box: {{kind: plate, ports: {{a: {{{PORT}, role: out}}, b: {{{PORT}}}}}}}
house/diode: {{kind: lead, ends: {{a: {{connector: 0b-2}}, b: {{connector: 0b-2}}}}, conductors: [{{from: a.1, to: b.1, diode: 0.4 V}}, {{from: a.2, to: b.2}}]}}
house/crossed: {{kind: lead, ends: {{a: {{connector: 0b-2}}, b: {{connector: 0b-2}}}}, conductors: [{{from: a.1, to: b.2}}, {{from: a.2, to: b.1}}]}}
"""
PLAIN = PARTS.replace(", CHARGE}}", "}}").replace("CHARGED", "0 A")


def find(head: str, leads: str = "P1: pack.out > head.out", extra: str = "") -> list[tuple[str, float, str, bool]]:
    """Port, volts, source and whether it is guessed, of each backfeed into a head."""
    parts = f"{PLAIN}house/head:\n  kind: head\n{head}"
    studies, setup = make_studies(f"kit: {{pack: house/pack, head: house/head{extra}}}\nleads: {{{leads}}}", parts)
    return [(b.ref.place, round(b.volts, 6), b.source.place, b.guessed) for b in studies.backfeeds(setup)]


def write_head(rails: str, bridges: str, role: str = "out", cells: str = "") -> str:
    """A head with an output on rail `five`, fed from rail `main`."""
    return (
        f"  rails: {rails}\n  bridges: [{bridges}]\n  cells: {{{cells}}}\n"
        f"  ports: {{in: {{{PORT}, rail: main, role: in}}, out: {{{PORT}, rail: five, role: {role}}}}}\n"
    )


EMPTY = "{main: {}, five: {}}"
REGULATOR = "{from: main, to: five, by: regulator, out: 5 V%s}"


@pytest.mark.parametrize(
    ("rails", "bridges", "role", "cells", "found"),
    [
        # what is behind the output takes current, or does not
        (EMPTY, REGULATOR % ", blocks: true", "out", "", []),
        (EMPTY, REGULATOR % ", blocks: false", "out", "", [False]),
        (EMPTY, REGULATOR % "", "out", "", [True]),
        ("{main: {}, five: {load: 2 W}}", REGULATOR % ", blocks: true", "out", "", [False]),
        ("{main: {}, five: {load: 0.9 W}}", REGULATOR % ", blocks: true", "out", "", []),
        ("{main: {load: 2 W}, five: {}}", "{from: five, to: main, by: diode}", "out", "", [False]),
        ("{main: {load: 2 W}, five: {}}", "{from: main, to: five, by: diode}", "out", "", []),
        ("{main: {load: 2 W}, five: {}}", "{from: main, to: five, by: switch}", "out", "", [False]),
        (EMPTY, "", "out", "cell: {volts: 4 to 5 V, rail: five}", [False]),
        # a port that is meant as an input is not backfed
        ("{main: {}, five: {load: 2 W}}", "", "in", "", []),
        ("{main: {}, five: {load: 2 W}}", "", "either", "", []),
    ],
)
def test_what_is_behind_an_output(rails: str, bridges: str, role: str, cells: str, found: list[bool]) -> None:
    expected = [("head.out", 16.8, "pack.pack", guessed) for guessed in found]

    assert find(write_head(rails, bridges, role, cells)) == expected


LOADED = write_head("{main: {load: 5 W}, five: {load: 2 W}}", REGULATOR % ", blocks: true")


@pytest.mark.parametrize(
    ("leads", "extra", "is_fed_back"),
    [
        # foreign: through the port's own mate
        ("P1: pack.out > head.out", "", True),
        ("P1: pack.out > box.b, P2: box.a > head.out", ", box: house/box", True),
        # own: through the part's rails
        ("P1: pack.out > head.in", "", False),
        ("P1: pack.out > head.in, P2: head.out > box.b", ", box: house/box", False),
        ("P1: {part: house/diode, from: head.out, to: pack.out}", "", False),
        ("P1: {part: house/diode, from: pack.out, to: head.out}", "", True),
        ("P1: {part: house/crossed, from: pack.out, to: head.out}", "", False),
    ],
)
def test_foreign_and_own_feeds(leads: str, extra: str, is_fed_back: bool) -> None:
    found = find(LOADED, leads, extra)

    assert [place for place, *_ in found] == (["head.out"] if is_fed_back else [])


def test_a_plate_is_not_backfed() -> None:
    studies, setup = make_studies("kit: {pack: house/pack, box: house/box}\nleads: {P1: pack.out > box.a}", PLAIN)

    assert studies.backfeeds(setup) == ()


def tie(leads: str, *, charge: str = "", charged: str = "0 A", power: PowerFigures | None = None) -> dict[str, float]:
    """Amps of each pair of sources that is tied, as `giver > taker`."""
    parts = PARTS.replace(", CHARGE}}", f", {charge}}}}}" if charge else "}}").replace("CHARGED", charged)
    kit = "kit: {one: house/pack, two: house/pack, mains: house/supply}"
    house = House(power=power or PowerFigures())
    studies, setup = make_studies(f"{kit}\nleads: {{{leads}}}", parts, house)
    return {f"{t.giver.item} > {t.taker.item}": t.amps for t in studies.tied_sources(setup)}


LEAD = "{ends: {a: {connector: 0b-2}, b: {connector: 0b-2}}, conductors: [{from: a.1, to: b.1, gauge: 20 AWG}, {from: a.2, to: b.2, gauge: 20 AWG%s}], length: 1 m}"  # fmt: skip

# AWG 20 is 0.127 mm * 92^(16/39) thick (ASTM B258), copper 1/58 ohm mm2/m (IEC 60028), stranded 1.02.
WIRE = 1 / 58 / (math.pi / 4 * (0.127 * 92 ** (16 / 39)) ** 2) * 1.02
CONTACT = 0.005  # of a 0b-2, by the catalogue; two mates, plus and minus
CHANGE_AT = 12 + (3.5 - 3.0) / (4.2 - 3.0) * 4.8  # 15 % left, 3.50 V of a cell, on a pack of 12.0 to 16.8 V


@pytest.mark.parametrize(
    ("fuse", "celsius", "ohms"),
    [
        ("", 20, 2 * WIRE + 4 * CONTACT + 2 * 0.08),
        (", fuse: 5 A", 20, 2 * WIRE + 0.005 + 4 * CONTACT + 2 * 0.08),
        ("", 60, 2 * WIRE * (1 + 0.00393 * 40) + 4 * CONTACT + 2 * 0.08),
    ],
)
def test_the_current_between_a_fresh_pack_and_one_at_change_over(fuse: str, celsius: float, ohms: float) -> None:
    power = PowerFigures(wire_temperature=273.15 + celsius)
    found = tie(f"P1: {{from: one.out, to: two.out, lead: {LEAD % fuse}}}", power=power)
    amps = (16.8 - CHANGE_AT) / ohms

    assert pytest.approx(14.0) == CHANGE_AT
    assert found == {"one > two": pytest.approx(amps, rel=1e-6), "two > one": pytest.approx(amps, rel=1e-6)}


def test_a_supply_against_a_pack() -> None:
    # 15 V pushes into a pack at 14.0 V; a pack at 16.8 V pushes into the supply at 15 V.
    ohms = 2 * WIRE + 4 * CONTACT + 0.08 + 0.010
    found = tie(f"P1: {{from: one.out, to: mains.out, lead: {LEAD % ''}}}")

    assert found == {
        "mains > one": pytest.approx(1.0 / ohms, rel=1e-6),
        "one > mains": pytest.approx(1.8 / ohms, rel=1e-6),
    }


@pytest.mark.parametrize(
    ("charge", "charged", "tied"),
    [
        ("", "20 A", {"mains > one"}),
        ("charge: 20 A", "20 A", set()),
        ("charge: 1 A", "20 A", {"mains > one"}),
        ("charge: 20 A", "1 A", {"one > mains"}),
    ],
)
def test_what_a_source_may_take_is_no_fault(charge: str, charged: str, tied: set[str]) -> None:
    assert set(tie(f"P1: {{from: one.out, to: mains.out, lead: {LEAD % ''}}}", charge=charge, charged=charged)) == tied


@pytest.mark.parametrize(
    ("lead", "tied"),
    [
        ("P1: {part: house/diode, from: one.out, to: two.out}", {"one > two"}),
        ("P1: {part: house/crossed, from: one.out, to: two.out}", set()),
        ("P1: one.out > two.out", {"one > two", "two > one"}),
    ],
)
def test_what_lies_between_two_packs(lead: str, tied: set[str]) -> None:
    assert set(tie(lead)) == tied


def test_a_diode_takes_its_drop() -> None:
    lead = LEAD.replace("to: b.1, gauge: 20 AWG", "to: b.1, gauge: 20 AWG, diode: 0.4 V") % ""
    found = tie(f"P1: {{from: one.out, to: two.out, lead: {lead}}}")

    assert found == {"one > two": pytest.approx((16.8 - 0.4 - CHANGE_AT) / (2 * WIRE + 4 * CONTACT + 0.16), rel=1e-6)}
