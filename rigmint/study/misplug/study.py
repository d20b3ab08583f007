"""All misplugs of a rig: every mistake that the connectors allow, and what it would do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from rigmint.graph.presence import Presence
from rigmint.rig.part import Part
from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.feeding import feeding_ports
from rigmint.study.misplug.arrivals import Arrivals
from rigmint.study.misplug.bench import Trial
from rigmint.study.misplug.burns import Harm
from rigmint.study.misplug.feeding import Feeding
from rigmint.study.misplug.judge import measure
from rigmint.study.misplug.losses import Loss, LossKind
from rigmint.study.misplug.mistakes import Mistake
from rigmint.study.misplug.moves import Sockets
from rigmint.study.misplug.outcome import Misplug, Outcome
from rigmint.study.misplug.swaps import Candidate, list_candidates, list_swaps
from rigmint.study.misplug.turns import list_forced, list_turns
from rigmint.study.misplug.victims import find_victim, order_harms
from rigmint.study.misplug.windows import Windows
from rigmint.study.studies import Studies


@dataclass(frozen=True, slots=True)
class MisplugStudy:
    """How many mistakes were tried, and what each of them does."""

    tried: int
    misplugs: tuple[Misplug, ...]


def study_misplugs(studies: Studies, setups: Sequence[str], library: Sequence[Part]) -> MisplugStudy:
    """The study over these setups. `library`: the lead parts of the library."""
    candidates = list_candidates(studies.rig, library)
    found: dict[tuple[object, ...], list[Misplug]] = {}
    tried = set()
    burning: dict[Presence, dict[tuple[object, ...], Trial]] = {}
    for name in setups:
        setup = studies.rig.setups[name]
        trier = _Trier(studies, setup, burning.setdefault(Presence.of(setup), {}))
        for mistake in list_mistakes(studies.rig, setup, candidates):
            tried.add(mistake.key)
            misplug = trier.judge(mistake)
            found.setdefault((mistake.key, misplug.outcome, misplug.port), []).append(misplug)
    return MisplugStudy(len(tried), tuple(_merge(group) for group in found.values()))


def list_mistakes(rig: Rig, setup: Setup, candidates: Sequence[Candidate]) -> Iterator[Mistake]:
    """Every mistake that can be made in a setup."""
    sockets = Sockets(rig, setup)
    for label in sorted(setup.leads):
        for move in sockets.list_moves(rig.leads[label]):
            yield sockets.make_mistake(move)
    yield from list_swaps(rig, setup, candidates)
    yield from list_turns(rig, setup)
    yield from list_forced(rig, setup)


class _Trier:
    """Tries mistakes in one setup. What is destroyed depends only on what is there: setups of one presence share it."""

    def __init__(self, studies: Studies, setup: Setup, trials: dict[tuple[object, ...], Trial]) -> None:
        self._rig = studies.rig
        self._setup = setup
        self._trials = trials
        self._bench = studies.misplug_bench(setup)
        self._guessing = None if studies.states_blocking(setup) else studies.misplug_bench(setup, guesses=True)
        wiring = self._bench.wiring
        is_certain = studies.states_blocking(setup)
        self._feeding = Feeding(studies.rig, setup, studies.network(setup), wiring.wired, is_certain=is_certain)
        self._windows = Windows(studies.rig, setup.off, wiring.judge, wiring.wired.base)
        self._arrivals = Arrivals(studies.rig, setup)

    def judge(self, mistake: Mistake) -> Misplug:
        """What a mistake does."""
        if mistake.key not in self._trials:
            self._trials[mistake.key] = self._bench.try_mistake(mistake)
        trial = self._trials[mistake.key]
        if trial.harms:
            harms = order_harms(self._rig, self._setup, mistake, trial.harms)
            victim = find_victim(mistake, harms)
            return Misplug(mistake, (self._setup.name,), Outcome.BURN, victim, harms[0].volts, harms)
        losses = tuple(sorted(self._list_losses(mistake, trial)))
        port = self._find_port(mistake, losses)
        outcome = Outcome.DEAD if losses else Outcome.HARMLESS
        volts = _find_volts(trial, port)
        return Misplug(mistake, (self._setup.name,), outcome, port, volts, (), losses, self._find_perhaps(mistake))

    def _find_perhaps(self, mistake: Mistake) -> tuple[Harm, ...]:
        """What would be destroyed besides if every regulator that says nothing let current back."""
        harms = self._guessing.try_mistake(mistake).harms if self._guessing is not None else ()
        return order_harms(self._rig, self._setup, mistake, harms)

    def _list_losses(self, mistake: Mistake, trial: Trial) -> Iterator[Loss]:
        unpowered = self._feeding.list_unpowered(mistake, trial.touched, is_rewired=trial.is_rewired)
        starved = self._windows.list_starved(
            trial.wiring.judge, trial.touched, lambda: trial.wiring.spread_nominal(mistake.leads)
        )
        for item in unpowered | starved:
            yield Loss(LossKind.POWER, item)
        yield from self._arrivals.list_lost(mistake)

    def _find_port(self, mistake: Mistake, losses: Sequence[Loss]) -> PortRef:
        """The input of an item that has no power any more: of what the plug was meant for, of what it is in, or of
        another; else the wrong socket."""
        near = [mistake.meant.partition(".")[0], mistake.into.item]
        unfed = [loss.place for loss in losses if loss.kind is LossKind.POWER]
        for item in sorted(unfed, key=lambda one: (near.index(one) if one in near else len(near), one)):
            ports = feeding_ports(self._rig, item)
            if ports:
                return ports[0]
        return mistake.into


def _find_volts(trial: Trial, port: PortRef) -> float | None:
    row = next((row for row in trial.wiring.judge.power if row.ref == port), None)
    if row is None:
        return None
    spread = trial.touched.spread
    return measure(spread, [reach for reach in spread.reaches if reach.shorted is None], row)[0]


def _merge(group: Sequence[Misplug]) -> Misplug:
    """One misplug of several setups, with the worst volts of them."""
    worst = max(group, key=lambda one: abs(one.volts) if one.volts is not None else -1.0)
    return replace(worst, setups=tuple(setup for one in group for setup in one.setups))
