"""One run of `check`: find the files, load the packs, read each rig, run the rules, put the report together."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path

from rigmint.library.build_rig import ReadRig, read_rig
from rigmint.library.faults import Fault
from rigmint.library.find_files import find_rig_files
from rigmint.library.library_file import Library, find_library_file, load_library
from rigmint.lint.accepted import Signed, Signing, sign_findings
from rigmint.lint.edits import find_fix_edits
from rigmint.lint.engine import RuleRun, run_rules
from rigmint.lint.library_entries import report_library_entries
from rigmint.lint.packs import PackSet, find_missing, load_packs
from rigmint.lint.parameters import check_overrides
from rigmint.lint.prove import CheckedRig, Prover
from rigmint.lint.results import FileReport, Override, Report, ReportedFinding, ReportedFix
from rigmint.rig.rig import Rig
from rigmint.words import Grade

_WORST = frozenset({Grade.HURT, Grade.BURN})


@dataclass(frozen=True, slots=True)
class _Judged:
    library: Library
    report: FileReport


def check_paths(
    paths: Sequence[Path],
    *,
    library: Path | None,
    today: datetime.date,
    setup: str | None,
    prove: bool,
) -> Report:
    """Check rig files and folders of them. `library` is taken instead of the one found beside each rig; `setup`
    restricts the run; `prove`: try each fix, for a person to read."""
    files, unread = find_rig_files(paths)
    packs = load_packs()
    libraries: dict[Path | None, Library] = {}
    judged = []
    for path in files:
        library_file = library if library is not None else find_library_file(path)
        if library_file not in libraries:
            libraries[library_file] = load_library(library_file)
        judged.append(_check_file(path, libraries[library_file], packs, today, setup, prove))
    reports = [one.report for one in judged]
    if setup is None:
        reports += _report_libraries(libraries, judged, files, packs)
    if not files and not unread:
        unread = (Fault("", 1, 1, "file:unreadable", "no rig files (`*.rig.yaml`) were found"),)
    tied = {fault for one in judged for fault in one.report.unread}
    loose = [fault for one in libraries.values() for fault in _library_faults(one, packs)]
    missing = _missing_packs(packs, list(libraries.values()))
    everything = [*unread, *packs.faults, *missing, *(fault for fault in loose if fault not in tied)]
    return Report(
        version=version("rigmint"),
        today=today.isoformat(),
        packs={pack.name: pack.version for pack in packs.packs},
        rules=len(packs.rules),
        files=tuple(reports),
        unread=tuple(dict.fromkeys(everything)),
        overrides=tuple(o for one in libraries.values() for o in _list_overrides(one, packs)),
        fail_on={one.report.file: one.library.house.fail_on for one in judged}
        | {str(one.house.file): one.house.fail_on for one in libraries.values()},
    )


def _report_libraries(
    libraries: Mapping[Path | None, Library], judged: Sequence[_Judged], files: Sequence[Path], packs: PackSet
) -> list[FileReport]:
    """The libraries' own files, where the core has something to say of them."""
    codes = {rule.code for _, rule in packs.rules}
    found = []
    for path, library in libraries.items():
        if path is not None:
            reports = [one.report for one in judged if one.library is library]
            found.append(report_library_entries(library, path, reports, files, codes))
    return [report for report in found if report is not None]


def _check_file(
    path: Path, library: Library, packs: PackSet, today: datetime.date, setup: str | None, prove: bool
) -> _Judged:
    read = read_rig(path, library)
    rig = read.rig
    if rig is None:
        return _Judged(library, _unread_file(read))
    if setup is not None and setup not in rig.setups:
        listed = ", ".join(f"`{name}`" for name in rig.setups)
        fault = Fault(read.file, 1, 1, "file:unknown-name", f"there is no setup `{setup}`; the rig has {listed}")
        return _Judged(library, _unread_file(ReadRig(read.file, None, (fault,))))
    setups = (setup,) if setup is not None else tuple(rig.setups)
    run = run_rules(rig, library.house, packs.rules, setups)
    signing = sign_findings(run.findings, rig, library.house, today, {rule.code for _, rule in packs.rules})
    own = signing.own if setup is None else ()  # whether an entry is stale shows only over all setups
    prover = _make_prover(read, library, packs, today, signing, run if setup is None else None) if prove else None
    findings = [_report_finding(one, read, rig, prover) for one in signing.signed]
    findings += [_report_finding(Signed(merged, None), read, rig, prover) for merged in own]
    findings.sort(key=lambda finding: (finding.grade.rank, finding.position, finding.code, finding.at))
    report = FileReport(
        file=read.file,
        items=len(rig.items),
        leads=len(rig.leads),
        setups=setups,
        findings=tuple(findings),
        unknown=run.unknown,
        unread=(*run.crashes, *signing.faults),
        assumed=rig.assumed,
        library_entries=signing.of_library,
    )
    return _Judged(library, report)


def _make_prover(
    read: ReadRig, library: Library, packs: PackSet, today: datetime.date, signing: Signing, run: RuleRun | None
) -> Prover:
    """With what is known already, where all setups were checked."""
    if run is None or read.rig is None or read.document is None:
        return Prover(read, library, packs, today)
    checked = CheckedRig(read.document, read.rig, run, signing.signed, signing.own)
    return Prover(read, library, packs, today, checked)


def _unread_file(read: ReadRig) -> FileReport:
    return FileReport(read.file, 0, 0, (), (), (), read.faults, ())


def _report_finding(signed: Signed, read: ReadRig, rig: Rig, prover: Prover | None) -> ReportedFinding:
    merged = signed.merged
    finding = merged.finding
    fixes = []
    for fix in finding.fixes:
        edits = find_fix_edits(fix, merged, read)
        is_tried = prover is not None and edits and signed.accepted is None
        proved = prover.is_proved(merged, edits) if is_tried and prover is not None else None
        fixes.append(ReportedFix(fix.says, proved, edits))
    return ReportedFinding(
        code=finding.code,
        grade=finding.grade,
        says=finding.says,
        at=finding.at,
        cause=finding.cause,
        also=finding.also,
        position=rig.position(finding.cause, merged.setups[0]),
        setups=merged.setups,
        path=finding.path,
        measured=finding.measured,
        assumed=finding.assumed,
        fixes=tuple(fixes),
        accepted=signed.accepted,
    )


def find_loose_faults(packs: PackSet, libraries: Sequence[Library]) -> tuple[Fault, ...]:
    """What is wrong with packs and libraries, so that nothing is judged whole."""
    return (
        *packs.faults,
        *_missing_packs(packs, libraries),
        *(fault for one in libraries for fault in _library_faults(one, packs)),
    )


def _library_faults(library: Library, packs: PackSet) -> list[Fault]:
    owned = [fault for faults in library.catalogue.check_owned().values() for fault in faults]
    rules = {rule.code: rule for _, rule in packs.rules}
    return [*library.faults, *owned, *check_overrides(library.house, rules)]


def _missing_packs(packs: PackSet, libraries: Sequence[Library]) -> list[Fault]:
    houses = [library.house for library in libraries]
    left_out = set.intersection(*(set(house.packs_left_out) for house in houses)) if houses else set()
    needed = [name for house in houses for name in house.packs_needed]
    return list(find_missing(packs, needed, left_out))


def _list_overrides(library: Library, packs: PackSet) -> list[Override]:
    """What a library did to rules that concern burns and injuries: said at the end of each report."""
    grades = {rule.code: rule.grades for _, rule in packs.rules}
    shown = []
    for code, override in sorted(library.house.rules.items()):
        if not _WORST & set(grades.get(code, ())):
            continue
        if override.is_off:
            shown.append(Override(code, f"{code} is turned off in {library.house.file}"))
        elif override.grade is not None and override.grade not in _WORST:
            shown.append(Override(code, f"{code} is graded {override.grade.value} in {library.house.file}"))
    return shown
