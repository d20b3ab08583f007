"""What hangs on each source: the ports that its current passes, in the order in which it passes them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rigmint.graph.pins import GROUND, Join, JoinKind, Source
from rigmint.physics.circuit import Solution
from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.rig_circuit import RigCircuit

_CARRIES_AMPS = 5e-4
"""Under it nothing that a person would call current flows."""


@dataclass(frozen=True, slots=True)
class Branch:
    """A port, how many ports lie between it and its source, and the lead that brings the current to it.

    `above`: another source feeds it too, and what hangs on it stands there.
    """

    ref: PortRef
    depth: int
    lead: str | None
    above: bool = False


@dataclass(frozen=True, slots=True)
class SourceTree:
    """A source and its ports, each after the one through which it is fed."""

    source: Source
    branches: tuple[Branch, ...]


@dataclass(frozen=True, slots=True)
class _Flow:
    pin: int
    is_mate: bool = False


@dataclass(frozen=True, slots=True)
class _Visit:
    pin: int
    depth: int
    by_mate: bool
    lead: str | None


def grow_trees(rig: Rig, setup: Setup, built: RigCircuit, solution: Solution) -> tuple[SourceTree, ...]:
    """The trees of the sources that are on, in the order of the kit."""
    order = {name: index for index, name in enumerate(rig.items)}
    grower = _Grower(built, _list_flows(built, solution))
    sources = sorted((one for one in built.sources if one.item not in setup.off), key=lambda one: order[one.item])
    return tuple(SourceTree(source, grower.grow(source)) for source in sources)


def _list_flows(built: RigCircuit, solution: Solution) -> Mapping[int, list[_Flow]]:
    """From each pin to those that its current goes on to; inside a part, to whatever joins it."""
    flows: dict[int, list[_Flow]] = {}
    for join in built.network.joins:
        if join.kind is JoinKind.INSIDE:
            flows.setdefault(join.first, []).append(_Flow(join.second))
            flows.setdefault(join.second, []).append(_Flow(join.first))
    for element, amps in zip(built.joins, solution.resistor_amps.tolist(), strict=True):
        if isinstance(element, Join) and abs(amps) > _CARRIES_AMPS:
            near, far = (element.first, element.second) if amps > 0 else (element.second, element.first)
            flows.setdefault(near, []).append(_Flow(far, element.kind is JoinKind.MATE))
    for diode, amps in zip(built.diodes, solution.diode_amps.tolist(), strict=True):
        if amps > _CARRIES_AMPS:
            flows.setdefault(diode.anode, []).append(_Flow(diode.cathode))
    for regulator, amps in zip(built.regulators, solution.output_amps.tolist(), strict=True):
        if amps > _CARRIES_AMPS:
            flows.setdefault(regulator.source, []).append(_Flow(regulator.output))
    return flows


class _Grower:
    """Walks with the current. Each port stands under the first source that reaches it."""

    def __init__(self, built: RigCircuit, flows: Mapping[int, list[_Flow]]) -> None:
        self._pins = built.network.pins
        self._flows = flows
        self._visited: set[int] = set()
        self._taken: set[PortRef] = set()

    def grow(self, source: Source) -> tuple[Branch, ...]:
        """The branches of one source, which come after those of the sources before it."""
        own: dict[PortRef, Branch] = {}
        stack = [_Visit(source.plus, 0, by_mate=False, lead=None)]
        while stack:
            visit = stack.pop()
            branch = self._find_branch(visit)
            if branch is not None and branch.ref not in own:
                own[branch.ref] = branch
            if visit.pin in self._visited:
                continue
            self._visited.add(visit.pin)
            if self._pins[visit.pin].contact != GROUND:
                depth = visit.depth if branch is None else own[branch.ref].depth + 1
                stack += reversed([self._go_on(visit, flow, depth) for flow in self._flows.get(visit.pin, ())])
        self._taken |= own.keys()
        return tuple(own.values())

    def _go_on(self, visit: _Visit, flow: _Flow, depth: int) -> _Visit:
        here = self._pins[visit.pin]
        return _Visit(flow.pin, depth, flow.is_mate, here.owner if here.is_lead else None)

    def _find_branch(self, visit: _Visit) -> Branch | None:
        """The port that the current enters here by a mate, or leaves by one."""
        pin = self._pins[visit.pin]
        if pin.is_lead or not pin.group or pin.contact == GROUND:
            return None
        leaves = any(flow.is_mate for flow in self._flows.get(visit.pin, ()))
        if not visit.by_mate and not leaves:
            return None
        ref = PortRef(pin.owner, pin.group)
        return Branch(ref, visit.depth, visit.lead, above=ref in self._taken)
