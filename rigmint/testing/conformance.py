"""What every pack must hold to: each check gives the faults of a pack in words, all at once."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from math import isclose
from pathlib import Path
from typing import TypeAlias

from rigmint.library.faults import Fault
from rigmint.lint.engine import RuleRun
from rigmint.lint.finding import Finding, Measured, MergedFinding
from rigmint.testing.declarations import judge_codes, judge_readme, judge_sources, judge_tests, judge_texts
from rigmint.testing.judging import CORPUS, Judged
from rigmint.testing.pack_folder import PackUnderTest, open_installed_pack
from rigmint.testing.runs import Runs
from rigmint.words import Grade

Check: TypeAlias = Callable[[PackUnderTest, Runs], Iterable[str]]

COST = 1.0
"""What a rule may cost: as much as all other packs together. The dearest standard rule costs 0.5."""
_SHOWN = 3
"""How many rigs are listed, where the same is wrong with many."""
_FALSE_PRECISION = re.compile(r"\d\.\d{4,}")
_SAME = 1e-6
"""How far two measured figures may differ, as a share, that are computed from the same rig in other units."""


def _judge_emitted(one: PackUnderTest, runs: Runs) -> Iterator[str]:
    """Each code that is declared comes on some rig. Another code than its own makes a rule fail, like any error."""
    judged = runs.judgements[one.pack.name].values()
    emitted = {merged.finding.code for each in judged for merged in each.run.findings}
    for rule in one.pack.rules:
        if rule.code not in emitted:
            yield f"{rule.code} is declared and comes on no rig: write one that shows it into tests/rigs"


def _judge_sentences(one: PackUnderTest, runs: Runs) -> Iterator[str]:
    """What is said to a technician: whole sentences, no false precision, and a remedy."""
    seen = set()
    for rig, finding in _list_findings(one, runs):
        for fault in _find_wording_faults(finding):
            if (finding.code, fault) not in seen:
                seen.add((finding.code, fault))
                yield f"{finding.code} on {rig} {fault}: {finding.says!r}"


def _judge_sound(one: PackUnderTest, runs: Runs) -> Iterator[str]:
    """On sound rigs it finds nothing at `fight` or worse, and does not fail."""
    yield from _list_crashes(one, runs, is_sound=True)
    judged = runs.judgements[one.pack.name]
    for rig, finding in _list_findings(one, runs):
        is_sound = rig.startswith(CORPUS) and judged[rig].shows is None
        if is_sound and finding.grade.is_at_least(Grade.FIGHT):
            yield f"{rig} is sound, and {finding.grade.value} {finding.code} came at {finding.at}: {finding.says}"


def _judge_faulty(one: PackUnderTest, runs: Runs) -> Iterator[str]:
    """On rigs with faults of every sort it does not fail."""
    yield from _list_crashes(one, runs, is_sound=False)


def _judge_units(one: PackUnderTest, runs: Runs) -> Iterator[str]:
    """The same rig in other units gives the same findings."""
    differing: dict[str, str] = {}
    for rig, judged in runs.judgements[one.pack.name].items():
        if fault := _compare(judged.run, runs.in_other_units[one.pack.name][rig].run):
            differing[rig] = f"written in other units is judged otherwise: {fault}"
    if differing:
        yield from _list_first(differing)
        yield "say figures by `say_metres` and the like, which round, and compare by `exceeds`, which allows for it"


def _judge_determinism(one: PackUnderTest, runs: Runs) -> Iterator[str]:
    """The same rig gives the same again, whatever the order of rules and the seed of hashes."""
    differing: dict[str, str] = {}
    for rig, judged in runs.judgements[one.pack.name].items():
        if judged.again is not None and judged.run != judged.again:
            how = _compare(judged.run, judged.again) or "by its fixes"
            differing[rig] = f"is judged otherwise a second time: {how}; a rule keeps nothing from one rig to the next"
        elif repr(judged.run) != runs.with_other_seed[one.pack.name][rig]:
            differing[rig] = "is judged otherwise with another seed of hashes: sort what comes out of a set"
    yield from _list_first(differing)


def _judge_speed(one: PackUnderTest, runs: Runs) -> Iterator[str]:
    """No rule takes longer than all other packs together."""
    for code, share in runs.measure(one).items():
        if share > COST:
            yield f"{code} takes {share:.1f} times as long as all other packs together; {COST:.0f} is the most"


CHECKS: Mapping[str, Check] = {
    "codes": lambda one, _: judge_codes(one),
    "texts": lambda one, _: judge_texts(one),
    "sources": lambda one, _: judge_sources(one),
    "readme": lambda one, _: judge_readme(one),
    "tests": lambda one, _: judge_tests(one),
    "emitted": _judge_emitted,
    "sentences": _judge_sentences,
    "sound-rigs": _judge_sound,
    "faulty-rigs": _judge_faulty,
    "units": _judge_units,
    "determinism": _judge_determinism,
    "speed": _judge_speed,
}
"""Every check of a pack as a whole, by name."""


def assert_pack(name: str, folder: Path) -> None:
    """What the installed pack says of itself is whole: texts, sources, the table of `folder`/README.md, and tests of
    each rule in `folder`/tests. Raises BadCase where no such pack is installed."""
    one = open_installed_pack(name, folder)
    faults = [fault for judge in (judge_texts, judge_sources, judge_tests, judge_readme) for fault in judge(one)]
    if faults:
        msg = f"the pack {name} is not whole:\n" + "\n".join(f"  {fault}" for fault in faults)
        raise AssertionError(msg)


def _list_findings(one: PackUnderTest, runs: Runs) -> Iterator[tuple[str, Finding]]:
    for rig, judged in runs.judgements[one.pack.name].items():
        for merged in judged.run.findings:
            yield rig, merged.finding


def _list_crashes(one: PackUnderTest, runs: Runs, *, is_sound: bool) -> Iterator[str]:
    """One line a rule and what it said: a rule that fails, fails on many rigs."""
    seen: dict[str, list[str]] = {}
    for rig, judged in runs.judgements[one.pack.name].items():
        if (judged.shows is None) == is_sound:
            for says in dict.fromkeys(crash.says for crash in _list_run_crashes(judged)):
                seen.setdefault(says, []).append(rig)
    for says, rigs in seen.items():
        more = f" and {len(rigs) - 1} more" if len(rigs) > 1 else ""
        yield f"on {rigs[0]}{more}: {says}"


def _find_wording_faults(finding: Finding) -> Iterator[str]:
    if not finding.says.rstrip().endswith("."):
        yield "is no sentence"
    if _FALSE_PRECISION.search(" ".join([finding.says, *(fix.says for fix in finding.fixes)])):
        yield "prints more digits than anybody measured; `say_volts` and the like round"
    if not finding.fixes:
        yield "offers no remedy: a Fix says what to do, best first"
    if any(not fix.says.rstrip().endswith(".") for fix in finding.fixes):
        yield "has a remedy that is no sentence"


def _list_first(differing: Mapping[str, str]) -> Iterator[str]:
    """The first few rigs with what is wrong, and how many more there are."""
    for rig, fault in list(differing.items())[:_SHOWN]:
        yield f"{rig} {fault}"
    if len(differing) > _SHOWN:
        yield f"and so for {len(differing) - _SHOWN} more rigs"


def _list_run_crashes(judged: Judged) -> Iterator[Fault]:
    yield from judged.run.crashes
    if judged.again is not None:
        yield from judged.again.crashes


def _compare(first: RuleRun, other: RuleRun) -> str:
    """How two runs differ that must say the same, but for the last digits of what is measured; empty where they do."""
    before, after = ([_name(merged) for merged in run.findings] for run in (first, other))
    if before != after:
        gone = [name for name in before if name not in after]
        new = [name for name in after if name not in before]
        return f"{_show(gone or before)} became {_show(new or after)}"
    for merged, again in zip(first.findings, other.findings, strict=True):
        if not _is_same_figure(merged.finding.measured, again.finding.measured):
            return f"{merged.finding.code} measured {merged.finding.measured}, then {again.finding.measured}"
    unknown, unknown_again = ([(each.code, each.at, each.needs) for each in run.unknown] for run in (first, other))
    if unknown != unknown_again:
        return f"what it could not judge was {unknown}, then {unknown_again}"
    return ""


def _name(merged: MergedFinding) -> tuple[str, ...]:
    """What is said of a finding, and where."""
    one = merged.finding
    fixes = [fix.says for fix in one.fixes]
    return one.grade.value, one.code, one.at, one.cause, one.says, str(one.also), str(fixes), str(merged.setups)


def _show(names: list[tuple[str, ...]]) -> str:
    return "; ".join(f"{' '.join(name[:4])}: {' '.join(name[4:])}" for name in names) or "no finding"


def _is_same_figure(first: Measured | None, other: Measured | None) -> bool:
    if first is None or other is None:
        return first is other
    figures = [(each.value, *_list_limits(each)) for each in (first, other)]
    return (
        first.unit == other.unit
        and len(figures[0]) == len(figures[1])
        and all(isclose(one, two, rel_tol=_SAME, abs_tol=1e-9) for one, two in zip(*figures, strict=True))
    )


def _list_limits(measured: Measured) -> tuple[float, ...]:
    if measured.limit is None:
        return ()
    return measured.limit if isinstance(measured.limit, tuple) else (measured.limit,)
