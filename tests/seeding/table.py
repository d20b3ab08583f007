"""Counts of a run: recall by harm and by kind, false alarms and noise, and what is known to remain."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from rigmint.words import Grade
from tests.seeding.codes import CODES, UNJUDGED
from tests.seeding.judge.harm import UNSOLVED
from tests.seeding.remaining import Remaining, find_reason
from tests.seeding.run import Tried


@dataclass(slots=True)
class Row:
    """Counts of one kind of mistake."""

    concern: str
    tried: int = 0
    faults: int = 0
    killed: int = 0
    alarms: int = 0
    noise: int = 0

    @property
    def harmless(self) -> int:
        """Mutants that do no harm."""
        return self.tried - self.faults


@dataclass(slots=True)
class Tally:
    """A whole run."""

    kinds: dict[str, Row] = field(default_factory=dict)
    told: Counter[str] = field(default_factory=Counter)
    missed: Counter[str] = field(default_factory=Counter)
    alarms: Counter[str] = field(default_factory=Counter)
    alarms_on_harmless: Counter[str] = field(default_factory=Counter)
    unjudged: Counter[str] = field(default_factory=Counter)
    grave: Counter[int] = field(default_factory=Counter)
    """Findings at `fight` or worse on a mutant, to mutants."""
    refused: int = 0
    unsolved: int = 0
    """Mutants without any other harm whose circuit the simulator did not solve."""
    remaining: Counter[Remaining] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)
    """Misses, false alarms and noise that no reason is listed for, in words."""

    @property
    def tried(self) -> int:
        """Mutants."""
        return sum(row.tried for row in self.kinds.values())

    def recall(self, concern: str) -> float:
        """The share of harms of a concern that are told."""
        whats = [what for what, told in CODES.items() if told.concern == concern]
        told, missed = (sum(counts[what] for what in whats) for counts in (self.told, self.missed))
        return told / (told + missed) if told + missed else 1.0

    def add(self, one: Tried) -> None:
        """Count a mutant."""
        row = self.kinds.setdefault(one.mutant.kind.name, Row(one.mutant.kind.concern))
        row.tried += 1
        is_fault = any(harm.what != UNSOLVED for harm in one.harms)
        row.faults += is_fault
        self.unsolved += is_fault < bool(one.harms)
        self.told.update(harm.what for harm in one.verdict.told)
        if one.verdict.refused:
            self.refused += 1
            row.killed += is_fault
            return
        grave = [finding for finding in one.report.findings if finding.grade.is_at_least(Grade.FIGHT)]
        self.grave[len(grave)] += 1
        self.unjudged.update(finding.code for finding in grave if finding.code in UNJUDGED)
        where = f"{one.mutant.base}, {one.mutant.kind.name}: {one.mutant.says}"
        misses = [harm for harm in one.verdict.missed if not self._remains(harm.what, one)]
        alarms = [alarm for alarm in one.verdict.alarms if not self._remains(alarm.code, one)]
        noise = [noise for noise in one.verdict.noise if not self._remains("noise", one)]
        self.missed.update(harm.what for harm in misses)
        self.alarms.update(alarm.code for alarm in alarms)
        if not one.harms:
            self.alarms_on_harmless.update(alarm.code for alarm in alarms)
        row.killed += is_fault and not misses
        row.alarms += bool(alarms)
        row.noise += bool(noise)
        self.wrong += [f"missed {harm.what} at {harm.at} ({where})" for harm in misses]
        self.wrong += [f"false alarm {alarm.code} at {alarm.at} ({where})" for alarm in alarms]
        self.wrong += [f"noise: {says} ({where})" for says in noise]

    def _remains(self, what: str, one: Tried) -> bool:
        reason = find_reason(what, one)
        if reason is not None:
            self.remaining[reason] += 1
        return reason is not None


def count(tried: Iterable[Tried]) -> Tally:
    """The counts of a run."""
    tally = Tally()
    for one in tried:
        tally.add(one)
    return tally


def write_tally(tally: Tally, title: str) -> list[str]:
    """The counts as lines of text."""
    faults, killed = (sum(getattr(row, key) for row in tally.kinds.values()) for key in ("faults", "killed"))
    lines = [
        f"{title}: {tally.tried} mutants of {len(tally.kinds)} kinds; {faults} faults, {killed} killed,"
        f" {faults - killed} missed; {tally.tried - faults} harmless, {sum(tally.alarms_on_harmless.values())} false alarms"
        f" on them; {sum(tally.alarms.values())} in all; {sum(row.noise for row in tally.kinds.values())} over the noise"
        f" budget; {tally.refused} refused by the reader.",
        "",
        f"{'harm':<14}{'concern':<12}{'told':>6}{'missed':>8}{'recall':>8}{'alarms':>8}  codes",
    ]
    harms = [(what, told) for what, told in CODES.items() if what != UNSOLVED]
    for what, told in sorted(harms, key=lambda pair: (pair[1].concern, pair[0])):
        hit, miss = tally.told[what], tally.missed[what]
        share = f"{hit / (hit + miss):.3f}" if hit + miss else "-"
        alarms = sum(tally.alarms[code] for code in told.own)
        lines.append(f"{what:<14}{told.concern:<12}{hit:>6}{miss:>8}{share:>8}{alarms:>8}  {', '.join(told.own)}")
    lines += [
        "",
        f"{'kind of mistake':<42}{'concern':<12}{'tried':>6}{'faults':>8}{'killed':>8}{'missed':>8}{'alarms':>8}{'noise':>7}",
    ]
    by_concern: dict[str, list[tuple[str, Row]]] = defaultdict(list)
    for name, row in tally.kinds.items():
        by_concern[row.concern].append((name, row))
    for concern in sorted(by_concern):
        for name, row in sorted(by_concern[concern]):
            counts = (row.faults, row.killed, row.faults - row.killed, row.alarms)
            cells = "".join(f"{count:>8}" for count in counts)
            lines.append(f"{name:<42}{concern:<12}{row.tried:>6}{cells}{row.noise:>7}")
    spread = ", ".join(f"{findings}: {mutants}" for findings, mutants in sorted(tally.grave.items()))
    lines += ["", f"Findings at `fight` or worse on a mutant: {spread}."]
    for code, number in sorted(tally.unjudged.items()):
        lines.append(f"Not judged: {code}, {number} findings ({UNJUDGED[code]}).")
    if tally.unsolved:
        lines.append(f"Not judged: the circuits of {tally.unsolved} mutants, which the simulator did not solve.")
    lines += [
        f"Remains: {one.what} in `{one.kind}`, {number} times: {one.why}" for one, number in tally.remaining.items()
    ]
    return lines


def write_wrong(tally: Tally, most: int = 40) -> Sequence[str]:
    """What is wrong and has no reason listed, so many lines of it."""
    rest = len(tally.wrong) - most
    return [*tally.wrong[:most], *([f"and {rest} more"] if rest > 0 else [])]
