"""Single faults: what is computed of each is what the same rig, rewritten with the fault and studied whole, shows."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.presence import Presence
from rigmint.library.build_rig import read_rig
from rigmint.library.library_file import find_library_file, load_library
from rigmint.rig.house import House
from rigmint.rig.rig import Rig, Setup
from rigmint.study.fault_changes import break_rig, break_setup
from rigmint.study.fault_list import FaultKind, SingleFault
from rigmint.study.fault_outcome import FaultOutcome
from rigmint.study.fault_power import PowerBase, PowerState
from rigmint.study.fault_signals import SignalState, study_signals
from rigmint.study.faults import Faults, compare_states, find_down
from rigmint.study.studies import Studies
from tests.builders import make_studies

RIGS = sorted((Path(__file__).resolve().parents[2] / "examples" / "rigs").glob("*.rig.yaml"))


def read_example(path: Path) -> tuple[Rig, House]:
    library = load_library(find_library_file(path))
    rig = read_rig(path, library).rig
    assert rig is not None
    return rig, library.house


def rewrite(rig: Rig, setup: Setup, fault: SingleFault) -> tuple[Rig, Setup]:
    """The rig with the fault written into it: a conductor that is not soldered, a battery without its cell."""
    rig, setup = break_rig(rig, fault), break_setup(rig, setup, fault)
    if fault.kind is FaultKind.SOURCE_FLAT:
        name, _, cell = fault.at.partition(".")
        item = rig.items[name]
        cells = {key: value for key, value in item.part.cells.items() if key != cell}
        rig = replace(rig, items={**rig.items, name: replace(item, part=replace(item.part, cells=cells))})
    return rig, setup


def study_whole(rig: Rig, setup: Setup, house: House) -> PowerState:
    network = build_pin_network(rig, Presence.of(setup))
    return PowerBase(rig, setup, network, house.power.wire_temperature).state


def judge_from_scratch(
    rig: Rig, setup: Setup, house: House, fault: SingleFault, before: tuple[PowerState, SignalState]
) -> FaultOutcome:
    broken, left = rewrite(rig, setup, fault)
    state = study_whole(broken, left, house)
    down = find_down(before[0], state, left, fault)
    signals = study_signals(broken, replace(left, off=left.off | down), house.leaves)
    return compare_states(rig, setup, fault, (before[0], state), (before[1], signals))


@pytest.mark.parametrize("path", RIGS, ids=lambda path: path.name)
def test_each_outcome_is_that_of_the_rig_rewritten(path: Path) -> None:
    rig, house = read_example(path)
    for setup in rig.setups.values():
        found = Studies(rig, house).faults(setup)
        before = study_whole(rig, setup, house), study_signals(rig, setup, house.leaves)
        for outcome in found.outcomes:
            whole = judge_from_scratch(rig, setup, house, outcome.fault, before)
            assert compare_loosely(outcome) == compare_loosely(whole), outcome.fault


def compare_loosely(outcome: FaultOutcome) -> FaultOutcome:
    """Currents and volts to a microampere and a microvolt, since the two ways to a solution end there."""
    shields = tuple(replace(one, amps=round(one.amps, 6), share=round(one.share, 6)) for one in outcome.shields)
    return replace(outcome, shields=shields, low=tuple(replace(one, volts=round(one.volts, 6)) for one in outcome.low))


PARTS = """
house/pack: {kind: battery, cells: {pack: {volts: 12 to 16.8 V, nominal: 14.4 V, energy: 98 Wh}}, ports: {out_1: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}}, out_2: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}}}}
house/camera: {kind: camera, rails: {main: {load: 28.8 W}}, makes: {sensor: {picture: 1080p25}}, passes: [{from: sensor, to: sdi, carries: picture}], ports: {dc: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}, works: 11 to 17 V}, sdi: {connector: bnc, sex: socket, pins: {centre: video, shield: minus}, speaks: [sdi-3g]}}}
house/screen: {kind: monitor, rails: {main: {load: 5 W}}, settings: {look: {values: [log, rec], default: log, forgets: true}}, shows: {panel: {}}, passes: [{from: sdi, to: panel, carries: picture}], ports: {dc: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}, works: 11 to 17 V}, sdi: {connector: bnc, sex: socket, pins: {centre: video, shield: minus}, speaks: [sdi-3g]}}}
"""
RIG = """
kit: {pack: house/pack, camera: house/camera, screen: {part: house/screen, set: {look: rec}}}
leads:
  P1: pack.out_1 > camera.dc
  P2: pack.out_2 > screen.dc
  S1: {part: generic/lead-sdi, from: camera.sdi, to: screen.sdi}
"""


@pytest.fixture(scope="module")
def faults() -> Faults:
    studies, setup = make_studies(RIG, PARTS)
    return studies.faults(setup)


def find(faults: Faults, kind: FaultKind, at: str) -> FaultOutcome:
    (found,) = (one for one in faults.outcomes if one.fault.kind is kind and one.fault.at == at)
    return found


def test_a_feed_that_comes_out_takes_its_device_and_the_picture(faults: Faults) -> None:
    outcome = find(faults, FaultKind.LEAD_OUT, "P1")

    assert outcome.down == ("camera",)
    assert [(loss.flow, loss.item) for loss in outcome.flows] == [("picture", "screen")]


def test_an_open_minus_leaves_the_device_up_and_returns_over_the_picture_lead(faults: Faults) -> None:
    """28.8 W at 14.4 V are 2 A (Ohm's law), and nothing else takes them back; the drop on the way adds a little."""
    outcome = find(faults, FaultKind.MINUS_OPEN, "P1")

    assert outcome.down == ()
    assert [(one.item, one.lead) for one in outcome.shields] == [("camera", "S1")]
    assert outcome.shields[0].amps == pytest.approx(2.0, rel=0.05)
    assert outcome.shields[0].is_whole


def test_a_device_that_loses_power_forgets(faults: Faults) -> None:
    outcome = find(faults, FaultKind.PLUS_OPEN, "P2")

    assert outcome.down == ("screen",)
    assert [(one.item, one.setting, one.value, one.default) for one in outcome.forgets] == [
        ("screen", "look", "rec", "log")
    ]


@pytest.mark.parametrize(("kind", "at"), [(FaultKind.SOURCE_FLAT, "pack.pack"), (FaultKind.SOURCE_OUT, "pack")])
def test_without_the_battery_all_is_down(faults: Faults, kind: FaultKind, at: str) -> None:
    assert set(find(faults, kind, at).down) >= {"camera", "screen"}


def test_an_open_picture_wire_takes_the_picture_and_no_power(faults: Faults) -> None:
    outcome = find(faults, FaultKind.LEAD_OUT, "S1")

    assert (outcome.down, [(loss.flow, loss.item) for loss in outcome.flows]) == ((), [("picture", "screen")])
    assert outcome.shields == ()
