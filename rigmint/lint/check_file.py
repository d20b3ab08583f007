"""Checks one rig that has been read: the rules, who signed for what, the fixes, and the report of it."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass, replace

from rigmint.library.build_rig import ReadRig
from rigmint.library.document import Document
from rigmint.library.faults import Fault
from rigmint.library.text_edits import TextEdit, plan_text_edits
from rigmint.library.tree_edits import Edit, EditRefused
from rigmint.lint.accepted import Signed, sign_findings
from rigmint.lint.edits import find_fix_edits
from rigmint.lint.engine import run_rules
from rigmint.lint.open_library import OpenLibrary
from rigmint.lint.packs import PackSet
from rigmint.lint.prove import CheckedRig, Prover
from rigmint.lint.results import FileReport, ReportedFinding, ReportedFix
from rigmint.rig.rig import Rig
from rigmint.study.studies import Studies


@dataclass(frozen=True, slots=True)
class Asked:
    """What a run is asked, the same for each file. `setup`: only this one; `prove`: try each fix; `plan`: give each fix
    as replacements in the file's text."""

    today: datetime.date
    setup: str | None = None
    prove: bool = False
    plan: bool = False


def check_file(read: ReadRig, opened: OpenLibrary, others: tuple[Rig, ...], asked: Asked) -> FileReport:
    """The report of one file. `others`: the other rigs of its job that are checked in this run."""
    breaches = opened.schemas.check_rig(read.document) if read.document is not None else ()
    rig = read.rig
    if rig is None:
        return _report_unread(read, breaches)
    if asked.setup is not None and asked.setup not in rig.setups:
        listed = ", ".join(f"`{name}`" for name in rig.setups)
        fault = Fault(read.file, 1, 1, "file:unknown-name", f"there is no setup `{asked.setup}`; the rig has {listed}")
        return _report_unread(ReadRig(read.file, None, (fault,)))
    house = opened.library.house
    setups = (asked.setup,) if asked.setup is not None else tuple(rig.setups)
    report = judge_rig(
        Studies(rig, house, others),
        opened.packs,
        asked.today,
        setups,
        read=read,
        prover=Prover(read, opened.library, opened.packs, asked.today, others, opened.schemas) if asked.prove else None,
        plans=asked.plan,
    )
    return replace(report, unread=(*breaches, *report.unread)) if breaches else report


def judge_rig(
    studies: Studies,
    packs: PackSet,
    today: datetime.date,
    setups: Sequence[str],
    *,
    read: ReadRig,
    prover: Prover | None = None,
    plans: bool = False,
) -> FileReport:
    """What the rules find on a rig in the setups named. `prover`: tries the fixes; `plans`: whether they are given as
    replacements in the file's text."""
    rig, house = studies.rig, studies.house
    run = run_rules(rig, house, packs.rules, setups, studies=studies)
    signing = sign_findings(run.findings, rig, house, today, {rule.code for _, rule in packs.rules})
    own = signing.own if len(setups) == len(rig.setups) else ()  # whether an entry is stale shows only over all setups
    if prover is not None and read.document is not None and len(setups) == len(rig.setups):
        prover = prover.continue_from(CheckedRig(read.document, rig, run, signing.signed, signing.own))
    findings = [_report_finding(one, read, rig, prover, plans=plans) for one in signing.signed]
    findings += [_report_finding(Signed(merged, None), read, rig, prover, plans=plans) for merged in own]
    findings.sort(key=lambda finding: (finding.grade.rank, finding.position, finding.code, finding.at))
    return FileReport(
        file=rig.file,
        items=len(rig.items),
        leads=len(rig.leads),
        setups=tuple(setups),
        findings=tuple(findings),
        unknown=run.unknown,
        unread=(*run.crashes, *signing.faults),
        assumed=rig.assumed,
        library_entries=signing.of_library,
    )


def _report_unread(read: ReadRig, breaches: tuple[Fault, ...] = ()) -> FileReport:
    return FileReport(read.file, 0, 0, (), (), (), (*read.faults, *breaches), ())


def _report_finding(signed: Signed, read: ReadRig, rig: Rig, prover: Prover | None, *, plans: bool) -> ReportedFinding:
    merged = signed.merged
    finding = merged.finding
    fixes = []
    for fix in finding.fixes:
        edits = find_fix_edits(fix, merged, read)
        is_tried = prover is not None and edits and signed.accepted is None
        proved = prover.is_proved(merged, edits) if is_tried and prover is not None else None
        fixes.append(ReportedFix(fix.says, proved, edits, _plan(read.document if plans else None, edits)))
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


def _plan(document: Document | None, edits: Sequence[Edit]) -> tuple[TextEdit, ...]:
    if document is None or not edits:
        return ()
    try:
        return plan_text_edits(document, edits)
    except EditRefused:
        return ()
