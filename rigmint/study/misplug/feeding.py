"""Items that lose their power by a mistake: no longer fed with the switches as they are set."""

from __future__ import annotations

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.pins import PinNetwork
from rigmint.graph.presence import Presence
from rigmint.rig.rig import Rig, Setup
from rigmint.study.misplug.mistakes import Mistake, rewrite_rig
from rigmint.study.misplug.wired import Spread, Touched, Wired
from rigmint.study.powering import close_switches, study_powering, without_signal_returns


class Feeding:
    """What is fed in one setup, and what is not once a mistake is made."""

    def __init__(self, rig: Rig, setup: Setup, network: PinNetwork, wired: Wired, *, is_certain: bool) -> None:
        """`wired`: the wiring with every switch closed; `is_certain`: whether it rests on no guess."""
        self._rig = rig
        self._setup = setup
        leads = {label: rig.leads[label] for label in sorted(setup.leads)}
        closed = close_switches(rig, setup, network)
        self._is_shared = is_certain and closed == network
        self._now = wired if self._is_shared else Wired(rig, closed, leads, setup.off, guesses=True)
        self._by_feed = Wired(rig, without_signal_returns(rig, closed), leads, setup.off, guesses=True)
        self._fed = [_list_fed(one, one.base) for one in (self._now, self._by_feed)]
        self._powered = frozenset(key for key in frozenset.intersection(*self._fed) if key[0] not in setup.off)

    def list_unpowered(self, mistake: Mistake, touched: Touched, *, is_rewired: bool) -> frozenset[str]:
        """The items of which a rail that was fed is no longer fed properly. `touched`: what the mistake does with every
        switch closed; `is_rewired`: whether it changes more than leads."""
        if is_rewired:
            rig, setup = rewrite_rig(self._rig, self._setup, mistake)
            now = study_powering(rig, setup, build_pin_network(rig, Presence.of(setup))).list_unpowered_keys()
            return frozenset(item for item, _ in self._powered & now)
        changes = [
            touched if self._is_shared else self._now.change(mistake.leads),
            self._by_feed.change(mistake.leads),
        ]
        fed = [
            before if change.is_same else _list_fed(wired, change.spread)
            for wired, change, before in zip((self._now, self._by_feed), changes, self._fed, strict=True)
        ]
        return frozenset(item for item, _ in self._powered - frozenset.intersection(*fed))


def _list_fed(wired: Wired, spread: Spread) -> frozenset[tuple[str, str]]:
    """(item, rail) of the loads that a source drives current through."""
    nets, fed = spread.nets, set()
    for load in wired.metal.network.loads:
        rail, ground = nets[load.rail_pin], nets[load.ground]
        if any(
            reach.across(rail, ground) is not None or (reach.shorted is not None and rail in reach.plus)
            for reach in spread.reaches
        ):
            fed.add(load.key)
    return frozenset(fed)
