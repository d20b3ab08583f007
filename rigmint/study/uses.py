"""What goes over each lead, dock and link of a setup: volts and whose, which protocols pass, which axes and flows.

The view that drawings and labels are made from; every figure in it comes from another study.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from rigmint.library.faults import Fault
from rigmint.physics.circuit import BadCircuit, SolveFailed
from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.layers import Layer, find_dock_layers, find_lead_layers, find_link_layers, find_token_layer
from rigmint.study.power import Point
from rigmint.study.power_tree import SourceTree, grow_trees
from rigmint.study.studies import Studies
from rigmint.words import AXES, FLOWS


@dataclass(frozen=True, slots=True)
class Use:
    """One lead, dock or link in one setup."""

    place: str
    """A lead's label, `dock:INDEX` or `link:NAME`."""
    layers: frozenset[Layer]
    """Empty: it is neither power nor signal, as far as anything says."""
    heads: Mapping[Layer, frozenset[PortRef]]
    """By layer: where power or signals arrive; a layer is missing where nothing says."""
    volts: Mapping[PortRef, float]
    """V at typical of each power port that it is on; empty without a solution of the circuit."""
    nominal: Mapping[PortRef, float]
    """V without any load, every source at its nominal volts; a port that shares an island with a short is left out."""
    sources: tuple[str, ...]
    """Items with the cells that feed it."""
    protocols: tuple[str, ...]
    """Those that pass."""
    axes: tuple[str, ...]
    """Those that somebody's hand, or a follow mode, moves over it."""
    flows: tuple[str, ...]
    """Those that arrive over it."""
    formats: tuple[str, ...]
    """Of the pictures that go over it."""


@dataclass(frozen=True, slots=True)
class Uses:
    """The view of one setup."""

    by_place: Mapping[str, Use]
    burns: bool
    """Whether this wiring destroys something, so that its volts are not to be worked by."""
    is_solved: bool
    """Whether the circuit has a solution at typical, with loads that give way where the volts are too low."""
    collapses: bool
    """Whether it has none that carries its loads."""


def gather_uses(studies: Studies, setups: Sequence[str]) -> tuple[dict[str, Uses], tuple[Fault, ...]]:
    """The view of each setup named. A circuit that could not be solved though it has a solution is a fault of
    rigmint's own, and then nothing is to be shown."""
    uses: dict[str, Uses] = {}
    failed: list[Fault] = []
    for name in setups:
        try:
            uses[name] = find_uses(studies, studies.rig.setups[name])
        except (SolveFailed, BadCircuit) as error:
            says = f"the circuit of setup {name} could not be solved, which is a fault of rigmint: {error}"
            failed.append(Fault(studies.rig.file, 1, 1, "study:failed", says))
    return uses, tuple(failed)


def find_uses(studies: Studies, setup: Setup) -> Uses:
    """The view of one setup. Raises SolveFailed or BadCircuit where the circuit cannot be solved."""
    rig = studies.rig
    feeds = _find_feeds(studies, setup)
    hops = _collect_hops(studies, setup)
    passing = _collect_protocols(studies, setup)
    point = studies.whole_power(setup).points[Point.TYPICAL]
    volts = {ref: one.volts for ref, one in point.ports.items()}
    uses = {}
    for place, layers, refs in _list_places(rig, setup):
        traffic = hops.get(place, _Traffic())
        is_power = Layer.POWER in layers
        uses[place] = Use(
            place=place,
            layers=layers,
            heads=_join_heads(feeds.heads.get(place, ()), traffic.heads),
            volts={ref: volts[ref] for ref in refs if ref in volts} if is_power else {},
            nominal={ref: feeds.nominal[ref] for ref in refs if ref in feeds.nominal} if is_power else {},
            sources=tuple(feeds.sources.get(place, ())) or feeds.guess(refs) if is_power else (),
            protocols=tuple(sorted(passing.get(place, ()))),
            axes=tuple(axis for axis in AXES if axis in traffic.tokens),
            flows=tuple(sorted(traffic.tokens - set(AXES))),
            formats=tuple(sorted(traffic.formats)),
        )
    return Uses(uses, studies.worst_volts(setup).burns(), point.solved, point.collapsed)


def _join_heads(fed: Sequence[PortRef], signalled: Iterable[tuple[str, PortRef]]) -> dict[Layer, frozenset[PortRef]]:
    heads: dict[Layer, set[PortRef]] = defaultdict(set)
    for token, ref in signalled:
        heads[find_token_layer(token)].add(ref)
    heads[Layer.POWER].update(fed)
    return {layer: frozenset(heads[layer]) for layer in Layer if heads[layer]}


def _list_places(rig: Rig, setup: Setup) -> Iterator[tuple[str, frozenset[Layer], Sequence[PortRef]]]:
    for label, lead in rig.leads.items():
        if label in setup.leads:
            yield label, find_lead_layers(rig, lead), tuple(lead.plugged.values())
    for dock in rig.docks:
        if dock.index in setup.docks:
            yield f"dock:{dock.index}", find_dock_layers(rig, dock), (dock.first, dock.second)
    for name, link in rig.links.items():
        if name in setup.links:
            yield link.place, find_link_layers(rig, link), [ref for ref in link.radios if ref.item in setup.items]


@dataclass(frozen=True, slots=True)
class _Feeds:
    """By place: the ports at which current arrives, and the items that it comes from."""

    heads: Mapping[str, list[PortRef]]
    sources: Mapping[str, list[str]]
    standing: Mapping[PortRef, str]
    """Port to the item whose cell puts most volts on it, for leads in which no current flows."""
    nominal: Mapping[PortRef, float]

    def guess(self, refs: Sequence[PortRef]) -> tuple[str, ...]:
        """The source that stands behind ports without current."""
        found = dict.fromkeys(self.standing[ref] for ref in refs if ref in self.standing)
        return tuple(found)[:1]


def _find_feeds(studies: Studies, setup: Setup) -> _Feeds:
    rig = studies.rig
    power = studies.whole_power(setup)
    solution = power.points[Point.TYPICAL].solution
    trees = grow_trees(rig, setup, power.circuit, solution) if solution is not None else ()
    docked = {frozenset((rig.docks[i].first, rig.docks[i].second)): f"dock:{i}" for i in sorted(setup.docks)}
    heads: dict[str, list[PortRef]] = defaultdict(list)
    sources: dict[str, list[str]] = defaultdict(list)
    for tree in trees:
        for place, ref in _list_fed(tree, docked):
            heads[place].append(ref)
            if tree.source.item not in sources[place]:
                sources[place].append(tree.source.item)
    reached = {ref: one.high for ref, one in studies.nominal_volts(setup).ports.items() if one.high is not None}
    standing = {ref: reach.source.item for ref, reach in reached.items() if reach.volts > 0}
    return _Feeds(heads, sources, standing, {ref: reach.volts for ref, reach in reached.items()})


def _list_fed(tree: SourceTree, docked: Mapping[frozenset[PortRef], str]) -> Iterator[tuple[str, PortRef]]:
    """(lead or dock, port at which its current arrives)."""
    depths = {branch.ref: branch.depth for branch in tree.branches}
    for branch in tree.branches:
        if branch.lead is not None:
            yield branch.lead, branch.ref
    for pair, place in docked.items():
        if pair <= depths.keys():
            yield place, max(pair, key=lambda ref: (depths[ref], ref))


@dataclass(slots=True)
class _Builder:
    tokens: set[str]
    formats: set[str]
    heads: set[tuple[str, PortRef]]


@dataclass(frozen=True, slots=True)
class _Traffic:
    tokens: frozenset[str] = frozenset()
    formats: frozenset[str] = frozenset()
    heads: frozenset[tuple[str, PortRef]] = frozenset()
    """(axis or flow, port or radio at which it arrives)."""


def _collect_hops(studies: Studies, setup: Setup) -> dict[str, _Traffic]:
    """What claims and flows take over each lead, dock and link, and the ports and radios at which they arrive."""
    rig = studies.rig
    docked = {(one, two): f"dock:{i}" for i in setup.docks for one, two in _both_ways(rig, i)}
    found: dict[str, _Builder] = defaultdict(lambda: _Builder(set(), set(), set()))
    for path, token, form in _list_paths(studies, setup):
        for place, head in _list_steps(rig, path, docked):
            found[place].tokens.add(token)
            found[place].heads.add((token, head))
            if form is not None:
                found[place].formats.add(form)
    return {
        place: _Traffic(frozenset(one.tokens), frozenset(one.formats), frozenset(one.heads))
        for place, one in found.items()
    }


def _list_paths(studies: Studies, setup: Setup) -> Iterator[tuple[tuple[str, ...], str, str | None]]:
    """(path, axis or flow, picture format)."""
    for axis in studies.hands(setup).axes.values():
        for claim in axis.claims:
            yield claim.path, claim.axis, None
    carried = {token for protocol in studies.rig.protocols.values() for token in protocol.carries}
    for flow in sorted(carried.union(FLOWS) - set(AXES)):
        for arrival in studies.flows(setup, flow):
            yield arrival.path, flow, arrival.format


def _both_ways(rig: Rig, index: int) -> tuple[tuple[str, str], tuple[str, str]]:
    one, two = rig.docks[index].first.place, rig.docks[index].second.place
    return (one, two), (two, one)


def _list_steps(rig: Rig, path: Sequence[str], docked: Mapping[tuple[str, str], str]) -> Iterator[tuple[str, PortRef]]:
    for index in range(1, len(path)):
        before, here = path[index - 1], path[index]
        if before in rig.leads or before.startswith("link:"):
            yield before, _split(here)
        elif (before, here) in docked:
            yield docked[before, here], _split(here)


def _split(place: str) -> PortRef:
    item, _, name = place.partition(".")
    return PortRef(item, name)


def _collect_protocols(studies: Studies, setup: Setup) -> dict[str, set[str]]:
    """The protocols that pass over each lead, dock and link."""
    rig = studies.rig
    docked = {pair: f"dock:{i}" for i in setup.docks for pair in _both_ways(rig, i)}
    passing: dict[str, set[str]] = defaultdict(set)
    for one in studies.connections(setup):
        passing[one.lead or docked.get((one.first.place, one.second.place), "")] |= one.protocols
    for name in setup.links:
        link = rig.links[name]
        for other in link.radios[1:]:
            passing[link.place] |= set(rig.radio(link.radios[0]).speaks) & set(rig.radio(other).speaks)
    return passing
