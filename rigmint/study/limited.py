"""Regulators at their current limit: what they feed sags, however full the source is."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint.physics.circuit import RegulatorState
from rigmint.rig.rig import PortRef, Rig
from rigmint.study.power import Point, Power, walk_onward


@dataclass(frozen=True, slots=True)
class LimitedRegulator:
    """A regulator at its limit: the item or lead that it is in, and the A that it gives at most."""

    owner: str
    amps: float


def find_limiting(rig: Rig, power: Power, ref: PortRef, point: Point) -> LimitedRegulator | None:
    """The regulator at its limit that feeds a port at an operating point, if there is one."""
    built, solution = power.circuit, power.points[point].solution
    port = rig.items[ref.item].part.ports[ref.port]
    node = built.node_of[built.network.port_pins(ref, tuple(port.feeds))[0]] if port.feeds else None
    if solution is None or node is None:
        return None
    for index, state in enumerate(solution.regulator_states):
        regulator = built.circuit.regulators[index]
        is_limited = state is RegulatorState.LIMITED and regulator.max_amps is not None
        if is_limited and node in walk_onward(built, regulator.output):
            return LimitedRegulator(built.regulators[index].owner, regulator.max_amps or 0.0)
    return None
