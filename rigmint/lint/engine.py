"""Runs rules on a rig: each in every setup, isolated; then which finding speaks; then one finding a cause."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from rigmint.library.faults import Fault
from rigmint.library.foreign import describe_error, keep_off_output
from rigmint.lint.case import Case
from rigmint.lint.check_result import check_result
from rigmint.lint.finding import Finding, MergedFinding, Unknown
from rigmint.lint.packs import Pack
from rigmint.lint.parameters import read_parameters
from rigmint.lint.precedence import CIRCUIT_FAMILIES, keep_speaking
from rigmint.lint.rule import Rule
from rigmint.physics.circuit import BadCircuit, SolveFailed
from rigmint.rig.house import House, RuleOverride
from rigmint.rig.rig import Rig, Setup
from rigmint.study.studies import NotKnown, Studies


@dataclass(frozen=True, slots=True)
class RuleRun:
    """What all rules found on one rig."""

    findings: tuple[MergedFinding, ...]
    unknown: tuple[Unknown, ...]
    crashes: tuple[Fault, ...]


def run_rules(
    rig: Rig,
    house: House,
    rules: Sequence[tuple[Pack, Rule]],
    setups: Sequence[str] | None = None,
    others: tuple[Rig, ...] = (),
    studies: Studies | None = None,
) -> RuleRun:
    """Run every rule in every setup (or in those named). `others`: the other rigs of the job that are checked too;
    `studies`: of this rig, where there are some to share."""
    studies = studies or Studies(rig, house, others)
    found: list[tuple[str, Finding]] = []
    unknown: dict[tuple[str, str, str], Unknown] = {}
    crashes: dict[tuple[str, str], Fault] = {}
    active = [(pack, rule) for pack, rule in rules if not house.rules.get(rule.code, RuleOverride()).is_off]
    for name in setups or rig.setups:
        gathered: list[Finding] = []
        for pack, rule in active:
            for result in _run_one(studies, rig.setups[name], pack, rule, crashes):
                if isinstance(result, Unknown):
                    unknown.setdefault((result.code, result.needs, result.at), result)
                else:
                    gathered.append(_regrade(result, house.rules.get(rule.code)))
        merged = [_place_on_island(finding, studies, rig.setups[name]) for finding in _merge_in_setup(gathered)]
        found += [(name, finding) for finding in keep_speaking(merged)]
    order = {name: index for index, name in enumerate(rig.setups)}
    return RuleRun(
        findings=_merge_over_setups(found, order),
        unknown=tuple(unknown[key] for key in sorted(unknown)),
        crashes=tuple(crashes[key] for key in sorted(crashes)),
    )


def _run_one(
    studies: Studies, setup: Setup, pack: Pack, rule: Rule, crashes: dict[tuple[str, str], Fault]
) -> list[Finding | Unknown]:
    file = studies.rig.file
    try:
        case = Case(studies, setup, read_parameters(rule, studies.house))
        with keep_off_output():
            results = [check_result(rule, result, studies.rig) for result in rule.check(case)]
    except NotKnown as error:
        return [Unknown(rule.code, error.key, error.place, str(error))]
    except (SolveFailed, BadCircuit) as error:
        says = f"the circuit of setup {setup.name} could not be solved, which is a fault of rigmint: {error}"
        crashes.setdefault(("study", file), Fault(file, 1, 1, "study:failed", says))
        return []
    except KeyboardInterrupt:
        raise
    except BaseException as error:  # any failure of a rule is that rule's alone; the others still run
        failed = f"rule {rule.code} of pack {pack.name} {pack.version} failed in setup {setup.name}"
        says = f"{failed}: {describe_error(error)}"
        crashes.setdefault((rule.code, file), Fault(file, 1, 1, "rule:crashed", says))
        return []
    return results


def _place_on_island(finding: Finding, studies: Studies, setup: Setup) -> Finding:
    """The finding with the island of its cause, by which findings about the circuit know each other."""
    if finding.code.partition(":")[0] not in CIRCUIT_FAMILIES:
        return finding
    islands = studies.islands(setup)
    owner = finding.cause.partition(".")[0].partition(":")[0]
    other = finding.at.partition(".")[0].partition(":")[0]
    return replace(finding, island=islands.get(owner, islands.get(other)))


def _regrade(finding: Finding, override: RuleOverride | None) -> Finding:
    """A library's grade caps a finding: nothing worse is reported."""
    if override is None or override.grade is None or override.grade.is_at_least(finding.grade):
        return finding
    return replace(finding, grade=override.grade)


def _merge_in_setup(findings: Iterable[Finding]) -> list[Finding]:
    """One finding a code and cause: the worst speaks, further places go to `also`."""
    groups: dict[tuple[str, str], list[Finding]] = defaultdict(list)
    for finding in findings:
        groups[finding.code, finding.cause].append(finding)
    return [_merge_group(group) for group in groups.values()]


def _merge_group(group: Sequence[Finding]) -> Finding:
    worst = min(group, key=_badness)
    places = [place for finding in group for place in (finding.at, *finding.also)]
    also = tuple(sorted({place for place in places if place != worst.at}))
    return replace(worst, also=also) if also != worst.also else worst


def _badness(finding: Finding) -> tuple[int, float, str, str]:
    excess = (
        round(finding.measured.excess, 9) if finding.measured is not None else 0.0
    )  # equal but for rounding: by place
    return finding.grade.rank, -excess, finding.at, finding.says


def _merge_over_setups(found: Sequence[tuple[str, Finding]], order: Mapping[str, int]) -> tuple[MergedFinding, ...]:
    groups: dict[tuple[str, str], list[tuple[str, Finding]]] = defaultdict(list)
    for setup, finding in found:
        groups[finding.code, finding.cause].append((setup, finding))
    merged = []
    for group in groups.values():
        finding = _merge_group([finding for _, finding in group])
        setups = tuple(sorted({setup for setup, _ in group}, key=lambda name: order[name]))
        merged.append(MergedFinding(finding, setups))
    return tuple(sorted(merged, key=lambda one: _order(one.finding)))


def _order(finding: Finding) -> tuple[int, str, str, str]:
    return finding.grade.rank, finding.code, finding.at, finding.cause
