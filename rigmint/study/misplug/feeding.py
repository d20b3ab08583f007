"""Items that lose their power by a mistake: no longer fed with the switches as they are set."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.pins import PinNetwork
from rigmint.graph.presence import Presence
from rigmint.rig.rig import Rig, Setup
from rigmint.study.misplug.mistakes import Mistake, rewrite_rig
from rigmint.study.misplug.wired import Spread, Wired
from rigmint.study.powering import close_switches, study_powering, without_signal_returns


@dataclass(frozen=True, slots=True)
class _Loads:
    """A wiring and the loads that it feeds."""

    wired: Wired

    def list_fed(self, spread: Spread) -> frozenset[tuple[str, str]]:
        """(item, rail) of the loads that a source drives current through."""
        nets, fed = spread.nets, set()
        for load in self.wired.metal.network.loads:
            rail, ground = nets[load.rail_pin], nets[load.ground]
            if any(
                reach.across(rail, ground) is not None or (reach.shorted is not None and rail in reach.plus)
                for reach in spread.reaches
            ):
                fed.add(load.key)
        return frozenset(fed)


class Feeding:
    """What is fed in one setup, and what is not once a mistake is made."""

    def __init__(self, rig: Rig, setup: Setup, network: PinNetwork) -> None:
        self._rig = rig
        self._setup = setup
        leads = {label: rig.leads[label] for label in sorted(setup.leads)}
        closed = close_switches(rig, setup, network)
        self._variants = [
            _Loads(Wired(rig, one, leads, setup.off, guesses=True))
            for one in (closed, without_signal_returns(rig, closed))
        ]
        self._fed = [one.list_fed(one.wired.base) for one in self._variants]
        self._powered = self._keep_on(frozenset.intersection(*self._fed))

    def list_unpowered(self, mistake: Mistake, *, is_rewired: bool) -> frozenset[str]:
        """The items of which a rail that was fed is no longer fed properly. `is_rewired`: the mistake changes more than
        leads."""
        if is_rewired:
            rig, setup = rewrite_rig(self._rig, self._setup, mistake)
            now = study_powering(rig, setup, build_pin_network(rig, Presence.of(setup))).list_unpowered_keys()
            return frozenset(item for item, _ in self._powered & now)
        fed = []
        for variant, before in zip(self._variants, self._fed, strict=True):
            touched = variant.wired.change(mistake.leads)
            fed.append(before if touched.is_same else variant.list_fed(touched.spread))
        return frozenset(item for item, _ in self._powered - frozenset.intersection(*fed))

    def _keep_on(self, keys: frozenset[tuple[str, str]]) -> frozenset[tuple[str, str]]:
        return frozenset(key for key in keys if key[0] not in self._setup.off)
