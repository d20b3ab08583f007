"""The order of plugging: no prefix of it breaks a limit, judged by the rules on a rig of the prefix alone."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from rigmint.library.build_rig import read_rig
from rigmint.library.library_file import find_library_file, load_library
from rigmint.lint.engine import run_rules
from rigmint.lint.packs import load_packs
from rigmint.rig.house import House
from rigmint.rig.rig import Rig, Setup
from rigmint.study.plugging import Mating, Turn, find_plugging_order, list_matings
from rigmint.words import Grade
from tests.builders import make_rig

RIGS = sorted((Path(__file__).resolve().parents[2] / "examples" / "rigs").glob("*.rig.yaml"))
FAMILIES = ("polarity", "voltage", "backfeed", "ground")
"""What a prefix could break: the rules of these families that speak of destruction."""


def read_example(path: Path) -> tuple[Rig, House]:
    library = load_library(find_library_file(path))
    rig = read_rig(path, library).rig
    assert rig is not None
    return rig, library.house


def only_setup(rig: Rig) -> Setup:
    """The setup of a rig that has one."""
    (setup,) = rig.setups.values()
    return setup


def take_prefix(rig: Rig, setup: Setup, plugged: list[Mating]) -> Rig:
    """The rig of one setup with some of its mates, and all that is only mechanical."""
    places = {mating.place for mating in plugged}
    every = {mating.place for mating in list_matings(rig, setup)}
    leads = {label for label in setup.leads if label in places or label not in every}
    docks = {index for index in setup.docks if f"dock:{index}" in places or f"dock:{index}" not in every}
    return replace(rig, setups={setup.name: replace(setup, leads=frozenset(leads), docks=frozenset(docks))})


def list_burns(rig: Rig, house: House) -> list[str]:
    rules = [(pack, rule) for pack, rule in load_packs().rules if rule.family in FAMILIES]
    run = run_rules(rig, house, rules)
    assert run.crashes == ()
    return [one.finding.says for one in run.findings if one.finding.grade is Grade.BURN]


@pytest.mark.parametrize("path", RIGS, ids=lambda path: path.name)
def test_no_prefix_of_an_example_breaks_a_limit(path: Path) -> None:
    rig, house = read_example(path)
    seen = set()
    for setup in rig.setups.values():
        order = find_plugging_order(rig, setup)
        assert order.conflicts == ()
        assert sorted(one.place for one in order.matings) == sorted(one.place for one in list_matings(rig, setup))
        if (setup.leads, setup.docks, setup.off) in seen:
            continue
        seen.add((setup.leads, setup.docks, setup.off))
        for count in range(1, len(order.matings) + 1):
            assert list_burns(take_prefix(rig, setup, list(order.matings[:count])), house) == []


@pytest.mark.parametrize("path", RIGS, ids=lambda path: path.name)
def test_power_comes_before_signals_and_batteries_last(path: Path) -> None:
    rig, _ = read_example(path)
    for setup in rig.setups.values():
        turns = [mating.turn for mating in find_plugging_order(rig, setup).matings]

        assert turns == sorted(turns)


PARTS = """
house/pack: {kind: battery, cells: {pack: {volts: 12 to 16.8 V, energy: 98 Wh}}, ports: {out: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}}}}
house/camera: {kind: camera, rails: {main: {load: 20 W}}, ports: {dc: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}, works: 11 to 17 V, survives: 0 to 18 V}, sdi: {connector: bnc, sex: socket, pins: {centre: video, shield: minus}, speaks: [sdi-3g]}}}
house/box: {kind: breakout, ports: {in: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}, rail: main, role: in, works: 6 to 34 V}, out_1: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}, rail: main, role: out}, out_2: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}, rail: main, role: out}}}
"""
CHAIN = """
kit: {pack: house/pack, box: house/box, camera: house/camera}
leads: {P1: pack.out > box.in, P2: box.out_1 > camera.dc}
"""


def test_what_is_far_from_the_source_is_plugged_first() -> None:
    rig = make_rig(CHAIN, PARTS)

    assert [one.place for one in find_plugging_order(rig, only_setup(rig)).matings] == ["P2", "P1"]


APART = """
house/plus-lead: {kind: lead, ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}, conductors: [{from: a.2, to: b.2}]}
house/minus-lead: {kind: lead, ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}, conductors: [{from: a.1, to: b.1}]}
house/twin: {kind: battery, cells: {pack: {volts: 12 to 16.8 V, energy: 98 Wh}}, ports: {out_1: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}}, out_2: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}}, out_3: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}}}}
house/two-ins: {kind: camera, rails: {main: {load: 20 W}}, ports: {dc: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}, works: 11 to 17 V}, dc_2: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}, works: 11 to 17 V}, sdi: {connector: bnc, sex: socket, pins: {centre: video, shield: minus}, speaks: [sdi-3g]}}}
"""


def test_a_plus_waits_for_its_minus_where_the_return_would_run_through_a_picture_lead() -> None:
    """Plus and minus of the camera come by two leads; the file names the plus first. With the monitor fed and the
    picture lead in, the plus alone would return through the picture's shield."""
    rig = make_rig(
        "kit: {pack: house/twin, camera: house/two-ins, monitor: house/camera}\n"
        "leads: {P3: pack.out_3 > monitor.dc, A: {part: house/plus-lead, from: pack.out_1, to: camera.dc},"
        " B: {part: house/minus-lead, from: pack.out_2, to: camera.dc_2}, S1: camera.sdi > monitor.sdi}\n",
        PARTS + APART,
    )

    order = find_plugging_order(rig, only_setup(rig))

    assert [one.place for one in order.matings] == ["S1", "P3", "B", "A"]
    assert order.conflicts == ()


def test_a_return_that_only_the_picture_lead_takes_is_a_finding_and_no_conflict() -> None:
    """The whole rig has this fault, whatever the order."""
    rig = make_rig(
        "kit: {pack: house/twin, camera: house/two-ins, monitor: house/camera}\n"
        "leads: {P3: pack.out_3 > monitor.dc, A: {part: house/plus-lead, from: pack.out_1, to: camera.dc},"
        " S1: camera.sdi > monitor.sdi}\n",
        PARTS + APART,
    )

    assert find_plugging_order(rig, only_setup(rig)).conflicts == ()


def test_a_rig_that_burns_as_it_is_has_no_conflict_of_order() -> None:
    """What the whole rig breaks is a finding, whatever the order."""
    rig = make_rig(
        CHAIN.replace(
            "P2: box.out_1 > camera.dc",
            "P2: {from: box.out_1, to: camera.dc, lead: {ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}, conductors: [{from: a.1, to: b.2}, {from: a.2, to: b.1}]}}",
        ),
        PARTS,
    )

    assert find_plugging_order(rig, only_setup(rig)).conflicts == ()


def test_a_dock_of_a_battery_comes_after_its_leads() -> None:
    rig = make_rig(
        "kit: {battery: generic/battery-98wh-wedge, plate: generic/plate-wedge-two-tap, lamp: generic/light-on-board}\n"
        "docks: [battery.mount > plate.battery]\n"
        "leads: {P1: {part: generic/lead-tap-to-2pin, from: plate.tap_1, to: lamp.dc_in}}\n"
    )

    matings = find_plugging_order(rig, only_setup(rig)).matings

    assert [(one.place, one.turn) for one in matings] == [("P1", Turn.POWER), ("dock:0", Turn.SOURCE)]
