"""Devices whose metal is tied to earth, and what lies between their grounds when another lead joins them too."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import combinations

from rigmint.graph.nets import Groups
from rigmint.graph.pins import EARTH, Join, PinNetwork
from rigmint.physics.circuit import Collapse, Network
from rigmint.rig.house import House
from rigmint.rig.rig import Rig, Setup
from rigmint.study.paths import find_way, list_hops
from rigmint.study.rig_circuit import build_rig_circuit


@dataclass(frozen=True, slots=True)
class EarthLoop:
    """Earthed items that the rig's own leads join too; V between their grounds at typical load if earth did not join
    them; the leads on the way from one to another."""

    items: tuple[str, ...]
    volts: float
    leads: tuple[str, ...]


def find_earth_loop(rig: Rig, setup: Setup, network: PinNetwork, house: House) -> EarthLoop | None:
    """The loop of earthed items; None where at most one is earthed, or nothing else joins them."""
    earth = network.index.get(EARTH)
    if earth is None:
        return None
    loose = replace(network, joins=tuple(join for join in network.joins if earth not in (join.first, join.second)))
    bonds = [join for join in network.joins if earth in (join.first, join.second)]
    earthed = sorted(network.pins[_other(join, earth)].owner for join in bonds)
    groups = Groups(len(network.pins))
    for join in loose.joins:
        groups.unite(join.first, join.second)
    pairs = [
        (one, two)
        for one, two in combinations(earthed, 2)
        if groups.root(network.ground(one)) == groups.root(network.ground(two))
    ]
    if not pairs:
        return None
    items = tuple(sorted({item for pair in pairs for item in pair}))
    hops = list_hops(loose, outwards=True)
    way = find_way(loose, hops, network.ground(pairs[0][0]), {network.ground(pairs[0][1])})
    leads = way.leads if way is not None else ()
    built = build_rig_circuit(rig, setup, loose, house.power.wire_temperature)
    try:
        solution = Network(built.circuit).solve()
    except Collapse:
        return EarthLoop(items, 0.0, leads)
    volts = 0.0
    for one, two in pairs:
        first, second = built.node_of[network.ground(one)], built.node_of[network.ground(two)]
        if first is not None and second is not None:
            volts = max(volts, abs(solution.measure_volts(first, second)))
    return EarthLoop(items, volts, leads)


def _other(join: Join, pin: int) -> int:
    return join.second if join.first == pin else join.first
