"""In which order a misplug destroys: along the leads, from the wrong socket on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.presence import Presence
from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.misplug.burns import Harm, HarmKind
from rigmint.study.misplug.mistakes import Mistake, rewrite_rig
from rigmint.study.worst_volts import study_worst_volts

_FAR = 1_000_000


def order_harms(rig: Rig, setup: Setup, mistake: Mistake, harms: Sequence[Harm]) -> tuple[Harm, ...]:
    """The harms, the nearest to the wrong socket first; what has no port, such as a short, is at that socket."""
    if len(harms) < 2:
        return tuple(harms)
    steps = _count_steps(*rewrite_rig(rig, setup, mistake), mistake.into)

    def rank(harm: Harm) -> tuple[int, int, str]:
        return (0 if harm.ref is None else steps.get(harm.ref, _FAR), harm.kind, str(harm.key))

    return tuple(sorted(harms, key=rank))


def find_victim(mistake: Mistake, harms: Sequence[Harm]) -> PortRef:
    """The port that a misplug destroys first; of a short, or of sources that are tied, the wrong socket itself."""
    return harms[0].ref or mistake.into


def trace_harm(rig: Rig, setup: Setup, mistake: Mistake, harm: Harm) -> tuple[str, ...]:
    """The chain of places by which volts come to the port that a misplug destroys; nothing where there is no such port
    or no such way."""
    if harm.ref is None:
        return ()
    rig, setup = rewrite_rig(rig, setup, mistake)
    worst = study_worst_volts(rig, build_pin_network(rig, Presence.of(setup)), setup.off, guesses=False)
    if harm.kind is HarmKind.SIGNAL:
        reach = next((one.reach for one in worst.signals if one.ref == harm.ref and one.signal == harm.what), None)
    else:
        volts = worst.ports[harm.ref]
        reach = volts.low if harm.kind is HarmKind.REVERSED else volts.high
    return worst.way_to(harm.ref, reach).places if reach is not None else ()


def _count_steps(rig: Rig, setup: Setup, start: PortRef) -> dict[PortRef, int]:
    """Ports by the number of steps from one: along a lead or a dock, or from port to port inside an item."""
    beside: dict[PortRef, set[PortRef]] = defaultdict(set)
    for label in setup.leads:
        refs = set(rig.leads[label].plugged.values())
        for ref in refs:
            beside[ref] |= refs
    for index in setup.docks:
        dock = rig.docks[index]
        beside[dock.first].add(dock.second)
        beside[dock.second].add(dock.first)
    steps = {start: 0}
    pending = [start]
    for ref in pending:
        inside = {PortRef(ref.item, name) for name in rig.items[ref.item].part.ports}
        for other in sorted((beside[ref] | inside) - steps.keys()):
            steps[other] = steps[ref] + 1
            pending.append(other)
    return steps
