"""What a wiring does, from scratch: the whole network, every source, every port, every hand and flow, with nothing kept
from the wiring before. The studies that it asks are those of a check; nothing of the misplug study is in it."""

from __future__ import annotations

from dataclasses import dataclass
from operator import attrgetter
from typing import TypeAlias

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.presence import Presence
from rigmint.rig.electric import Role
from rigmint.rig.house import House
from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.backfeed import find_backfeeds, find_tied_sources
from rigmint.study.electronics import has_electronics, wants_volts
from rigmint.study.flows import find_flow_arrivals
from rigmint.study.powering import study_powering
from rigmint.study.signal_map import SignalMap
from rigmint.study.study_hands import tie_hands
from rigmint.study.worst_volts import PortVolts, WorstVolts, study_worst_volts

Burn: TypeAlias = tuple[str, ...]
_REVERSED = -0.6
"""V: what a rail stands anyway, 0.3 V, and the margin of 0.3 V."""


@dataclass(frozen=True, slots=True)
class State:
    """A wiring as it is."""

    burns: frozenset[Burn]
    """What can be destroyed: the kind, then the port or the sources."""
    working: frozenset[tuple[str, str]]
    """What works: the kind of thing, then where."""
    lifted: frozenset[PortRef]
    """Inputs that are above their window for as long as their source lasts."""


def look_at(rig: Rig, setup: Setup, house: House) -> State:
    """The state of a rig in a setup."""
    network = build_pin_network(rig, Presence.of(setup))
    worst = study_worst_volts(rig, network, setup.off, guesses=False)
    nominal = study_worst_volts(rig, network, setup.off, volts_of=attrgetter("nominal"), guesses=False)
    unpowered = {load.load.key for load in study_powering(rig, setup, network).unpowered()}
    loads = {load.key for load in network.loads if load.item not in setup.off}
    working = {("load", f"{item} {rail}") for item, rail in loads - unpowered}
    working |= _list_fed(rig, setup, worst) | _list_arriving(rig, setup)
    lifted = _list_lifted(rig, setup, worst) & _list_lifted(rig, setup, nominal)
    return State(frozenset(_list_burns(rig, worst, house)), frozenset(working), frozenset(lifted))


def judge(before: State, after: State) -> str:
    """`burn`, `dead` or `harmless`: what a rig has without a mistake is not the mistake's."""
    if after.burns - before.burns:
        return "burn"
    return "dead" if before.working - after.working or after.lifted - before.lifted else "harmless"


def _list_burns(rig: Rig, worst: WorstVolts, house: House) -> set[Burn]:
    burns: set[Burn] = {("short", reach.source.place) for reach in worst.shorts}
    for ref, volts in worst.ports.items():
        burns |= {(kind, ref.place) for kind in _judge_port(rig, ref, volts)}
    burns |= {("signal", signal.ref.place, signal.signal) for signal in worst.signals}
    tied = find_tied_sources(rig, worst, house.power)
    burns |= {("tied", one.giver.place, one.taker.place) for one in tied}
    pushed = {(one.giver.place, one.taker.item) for one in tied}
    for backfeed in find_backfeeds(rig, worst):
        if not backfeed.guessed and (backfeed.source.place, backfeed.ref.item) not in pushed:
            burns.add(("output", backfeed.ref.item, *sorted(set(rig.port(backfeed.ref).feeds.values()))))
    return burns


def _judge_port(rig: Rig, ref: PortRef, volts: PortVolts) -> set[str]:
    survives = volts.port.survives
    is_stated = survives is not None and "survives" not in volts.port.assumed
    if not has_electronics(rig.items[ref.item].part) and not is_stated:
        return set()
    kinds = set()
    if survives is not None and volts.high is not None and volts.high.volts > survives.high:
        kinds.add("over")
    low = _REVERSED if survives is None else min(_REVERSED, survives.low - 0.3)
    if volts.low is not None and volts.low.volts < low:
        kinds.add("reversed")
    return kinds


def _list_fed(rig: Rig, setup: Setup, worst: WorstVolts) -> set[tuple[str, str]]:
    found = set()
    for ref, volts in worst.ports.items():
        if volts.port.role is Role.OUT or volts.high is None or ref.item in setup.off:
            continue
        if volts.port.works is not None and volts.high.volts >= volts.port.works.low:
            found.add(("window", ref.item))
        if wants_volts(rig.items[ref.item].part):
            found.add(("volts", ref.item))
    return found


def _list_lifted(rig: Rig, setup: Setup, worst: WorstVolts) -> set[PortRef]:
    return {
        ref
        for ref, volts in worst.ports.items()
        if volts.port.role is not Role.OUT
        and volts.high is not None
        and volts.port.works is not None
        and volts.high.volts > volts.port.works.high
        and has_electronics(rig.items[ref.item].part)
        and ref.item not in setup.off
    }


def _list_arriving(rig: Rig, setup: Setup) -> set[tuple[str, str]]:
    signals = SignalMap(rig, setup, {})
    found = set()
    for place, axis in tie_hands(signals, with_stops=False).axes.items():
        meant = [one for one in axis.claims if not axis.meant or one.person in axis.meant or one.automatic]
        if meant and axis.meant != ("nobody",):
            found.add(("hand", place))
    makers = [maker for name in setup.items for maker in rig.items[name].part.makes.values()]
    for flow in {flow for maker in makers for flow in maker.flows}:
        for arrival in find_flow_arrivals(signals, flow):
            item, _, name = arrival.place.partition(".")
            if arrival.problems or item == arrival.maker.partition(".")[0]:
                continue
            found.add((f"{flow} at", item))
            if name in rig.items[item].part.shows:
                found.add((f"{flow} shown", arrival.place))
    return found
