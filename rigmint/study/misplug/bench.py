"""The bench on which mistakes are tried: the volts of one wiring, and what each mistake would destroy that is not
destroyed without it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.pins import PinNetwork
from rigmint.graph.presence import Presence
from rigmint.graph.signals import connect_lead, connect_ports, settle_volts
from rigmint.rig.house import PowerFigures
from rigmint.rig.rig import Lead, PortRef, Rig, Setup
from rigmint.study.backfeed import find_backfeeds, find_tied_sources
from rigmint.study.misplug.burns import Harm, HarmKey, HarmKind, list_between_sources
from rigmint.study.misplug.judge import Judge
from rigmint.study.misplug.mistakes import Mistake, rewrite_rig
from rigmint.study.misplug.outside import Outside
from rigmint.study.misplug.wired import Spread, Touched, Wired
from rigmint.study.worst_volts import study_worst_volts


class Wiring:
    """A wiring with the ports on it, at the fullest of its sources and, where it is asked for, at their nominal."""

    def __init__(
        self, rig: Rig, setup: Setup, network: PinNetwork, leads: Mapping[str, Lead], *, guesses: bool
    ) -> None:
        self._rig = rig
        self._network = network
        self._leads = leads
        self._off = setup.off
        self._guesses = guesses
        self.wired = Wired(rig, network, leads, setup.off, guesses=guesses)
        self.judge = Judge(rig, setup.items, self.wired.metal, self.wired.sources)
        self._nominal: Wired | None = None

    def spread_nominal(self, leads: Mapping[str, Lead]) -> Spread:
        """What the sources put on the nets at their nominal, with leads otherwise than before."""
        if self._nominal is None:
            self._nominal = Wired(self._rig, self._network, self._leads, self._off, guesses=self._guesses, nominal=True)
        return self._nominal.change(leads).spread


@dataclass(frozen=True, slots=True)
class Trial:
    """A mistake tried: the wiring that it leaves, what it touches, and what it destroys."""

    wiring: Wiring
    touched: Touched
    harms: tuple[Harm, ...]
    is_rewired: bool
    """Whether more than leads is otherwise: a dock, a port, or the volts that a source settles on."""


class Bench:
    """One wiring, and the means to try mistakes on it."""

    def __init__(
        self,
        rig: Rig,
        setup: Setup,
        network: PinNetwork,
        known: Mapping[HarmKey, Harm],
        figures: PowerFigures,
        *,
        guesses: bool = False,
    ) -> None:
        """`known`: what can be destroyed in the wiring as it stands. Without `guesses` a regulator that does not state
        whether it blocks counts as blocking."""
        self._rig = rig
        self._setup = setup
        self._figures = figures
        self._guesses = guesses
        self._known = known
        self._leads = {label: rig.leads[label] for label in sorted(setup.leads)}
        self._others: dict[tuple[object, ...], Wiring] = {}
        self._offering = tuple(
            PortRef(name, port.name)
            for name in sorted(setup.items)
            for port in rig.items[name].part.ports.values()
            if port.offers
        )
        undocked = Presence(setup.items, frozenset(), setup.docks, setup.off)
        self._docked = connect_ports(rig, undocked) if self._offering else ()
        self._settled = self._settle({})
        self._outside = Outside(rig, setup, network, self._leads)
        self.wiring = Wiring(rig, setup, network, self._leads, guesses=guesses)

    def try_mistake(self, mistake: Mistake, *, rise: float | None = None) -> Trial:
        """The volts once a mistake is made, and what it destroys. `rise`: of outputs that are fed from outside, only
        those that get so many V more than before need be told."""
        settled = self._settle(mistake.leads)
        is_rewired = bool(mistake.docks_out or mistake.items) or settled != self._settled
        wiring = self._rewire(mistake, settled) if is_rewired else self.wiring
        touched = wiring.wired.change(mistake.leads)
        if is_rewired:
            touched = wiring.wired.touch_all(touched.spread, touched.under_leads)
        harms = self._list_harms(mistake, wiring, touched, rise)
        return Trial(wiring, touched, tuple(harms.values()), is_rewired)

    @property
    def is_negotiated(self) -> bool:
        """Whether a source offers several volts, and settles on some with what is plugged into it."""
        return bool(self._offering)

    def settles_otherwise(self, mistake: Mistake) -> bool:
        """Whether a mistake changes the volts that a source which offers several settles on."""
        return self._settle(mistake.leads) != self._settled

    def _list_harms(
        self, mistake: Mistake, wiring: Wiring, touched: Touched, rise: float | None
    ) -> dict[HarmKey, Harm]:
        judge = wiring.judge
        found = {harm.key: harm for harm in judge.list_harms(touched) if harm.key not in self._known}
        meeting = [one for one in judge.list_meeting(touched.spread, self._figures) if one.key not in self._known]
        certain = [one for one in meeting if one.taker.cell.charge <= 0 and not self._guesses]
        found |= {one.key: Harm(HarmKind.TIED, None, one.giver.highest, None, one.key[2]) for one in certain}
        pushed = {(one.giver.place, one.taker.item) for one in certain}
        fed = any(
            one.key not in self._known and self._outside.may_reach(mistake, one)
            for one in judge.list_fed_outputs(touched, wiring.wired.base, pushed, rise)
        )
        if fed or len(certain) < len(meeting):
            found |= {key: harm for key, harm in self._measure(mistake).items() if key not in self._known}
        return found

    def _rewire(self, mistake: Mistake, settled: tuple[float, ...]) -> Wiring:
        key = (mistake.docks_out, settled) if not mistake.items else (mistake.key,)
        if key not in self._others:
            rig, setup = rewrite_rig(self._rig, self._setup, mistake)
            network = build_pin_network(rig, Presence.of(setup))
            self._others[key] = Wiring(rig, setup, network, self._leads, guesses=self._guesses)
        return self._others[key]

    def _settle(self, leads: Mapping[str, Lead]) -> tuple[float, ...]:
        """The volts that each port which offers several settles on, with these leads otherwise than before."""
        if not self._offering:
            return ()
        now = {**self._leads, **leads}
        connections = [
            connection
            for label in sorted(now)
            if any(ref in self._offering for ref in now[label].plugged.values())
            for connection in connect_lead(self._rig, now[label])
        ]
        return tuple(settle_volts(self._rig, ref, (*connections, *self._docked)) for ref in self._offering)

    def _measure(self, mistake: Mistake) -> dict[HarmKey, Harm]:
        """The sources that push into each other and the outputs that are fed, on the whole network."""
        rig, setup = rewrite_rig(self._rig, self._setup, mistake)
        network = build_pin_network(rig, Presence.of(setup))
        worst = study_worst_volts(rig, network, setup.off, guesses=self._guesses)
        found: dict[HarmKey, Harm] = {}
        tied = find_tied_sources(rig, worst, self._figures)
        for harm in list_between_sources(rig, tied, find_backfeeds(rig, worst)):
            found.setdefault(harm.key, harm)
        return found
