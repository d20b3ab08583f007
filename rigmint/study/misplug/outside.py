"""Whether a source comes to an output from outside: through its own mate, and not through the rails of its own part."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import replace

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.pins import JoinKind, Pin, PinNetwork
from rigmint.graph.presence import Presence
from rigmint.rig.rig import Lead, Rig, Setup
from rigmint.study.misplug.judge import FedOutput
from rigmint.study.misplug.metal import Joined
from rigmint.study.misplug.mistakes import Mistake, rewrite_rig
from rigmint.study.misplug.wired import Overlay


class Outside:
    """One wiring, as each of its items sees it from outside: without what joins the item's own contacts."""

    def __init__(self, rig: Rig, setup: Setup, network: PinNetwork, leads: Mapping[str, Lead]) -> None:
        self._rig = rig
        self._setup = setup
        self._network = network
        self._leads = leads
        self._overlays: dict[str, Overlay] = {}

    def may_reach(self, mistake: Mistake, output: FedOutput) -> bool:
        """Whether some way leads from one of the sources to the output through its mate, volts apart."""
        item = output.ref.item
        overlay = self._find_overlay(mistake, item)
        joined, _ = overlay.join(mistake.leads)
        goals = {joined.nets[overlay.metal.node(Pin(item, output.ref.port, contact))] for contact in output.port.feeds}
        starts = {
            joined.nets[source.plus] for source in overlay.metal.network.sources if source.place in output.sources
        }
        return bool(_spread(joined, starts) & goals)

    def _find_overlay(self, mistake: Mistake, item: str) -> Overlay:
        if mistake.docks_out or mistake.items:
            rig, setup = rewrite_rig(self._rig, self._setup, mistake)
            return Overlay(rig, _open_item(build_pin_network(rig, Presence.of(setup)), item), self._leads)
        if item not in self._overlays:
            self._overlays[item] = Overlay(self._rig, _open_item(self._network, item), self._leads)
        return self._overlays[item]


def _open_item(network: PinNetwork, item: str) -> PinNetwork:
    inner = (JoinKind.INSIDE, JoinKind.BRIDGE, JoinKind.BOND)
    return replace(
        network,
        joins=tuple(join for join in network.joins if join.owner != item or join.kind not in inner),
        diodes=tuple(diode for diode in network.diodes if diode.owner != item),
        regulators=tuple(one for one in network.regulators if one.owner != item),
    )


def _spread(joined: Joined, starts: set[int]) -> set[int]:
    """The nets that current from `starts` can come to; regulators let none back that do not say so."""
    nets, onward = joined.nets, defaultdict(list)
    for diode in joined.network.diodes:
        onward[nets[diode.anode]].append(nets[diode.cathode])
    for regulator in joined.network.regulators:
        onward[nets[regulator.source]].append(nets[regulator.output])
        if regulator.spec.blocks is False:
            onward[nets[regulator.output]].append(nets[regulator.source])
    reached = set(starts)
    pending = list(starts)
    while pending:
        for net in onward[pending.pop()]:
            if net not in reached:
                reached.add(net)
                pending.append(net)
    return reached
