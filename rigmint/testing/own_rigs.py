"""A pack's own rigs, in `tests/rigs`: for each rule one that shows its fault, the same put right, and one that looks
like it and is fine.

    tests/rigs/rigmint.yaml                  the library that judges them
    tests/rigs/few-batteries.shows.rig.yaml  bears `# fault: kestrel:few-batteries` on the line at fault
    tests/rigs/few-batteries.right.rig.yaml  the same put right; `like:` saves writing it twice
    tests/rigs/few-batteries.alike.rig.yaml  looks like it and is fine; there may be several, `.alike-2` and so on
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from rigmint.lint.results import FileReport
from rigmint.testing.cases import BadCase, show_report
from rigmint.testing.pack_folder import PackUnderTest
from rigmint.testing.runs import Runs
from rigmint.testing.shelves import find_marks
from rigmint.words import Grade

_NAME = re.compile(r"(?P<what>.+)\.(?P<role>shows|right|alike)(-[0-9a-z]+)?")


def list_own_rigs(one: PackUnderTest) -> list[str]:
    """The names of a pack's own rigs; none where it has no `tests/rigs`. Raises BadCase where that holds no rig, or no
    rigmint.yaml, or one that is not named as the others are."""
    if one.own_shelf is None:
        return []
    names = list(one.own_shelf.list_files())
    for name in names:
        if _NAME.fullmatch(name) is None:
            msg = f"tests/rigs/{name}.rig.yaml: its name must end in .shows, .right or .alike, before .rig.yaml"
            raise BadCase(msg)
    return names


def judge_own_rig(one: PackUnderTest, runs: Runs, name: str) -> Iterator[str]:
    """What is wrong with one of a pack's own rigs, judged with every installed pack as `rigmint check` does.

    One that shows a fault is told it once, at its line, and nothing else at `fight` or worse, and has one beside it
    that is put right. On those the fault does not come, and nothing at `fight` or worse.
    """
    match = _NAME.fullmatch(name)
    if one.own_shelf is None or match is None:
        return
    marks = {rig: find_marks(path.read_text(encoding="utf-8")) for rig, path in one.own_shelf.list_files().items()}
    report = runs.check_own(one)[name]
    if match["role"] == "shows":
        yield from _judge_shown(one, marks[name], report)
        if f"{match['what']}.right" not in marks:
            yield f"there is no {match['what']}.right.rig.yaml, the same put right, beside it"
        return
    if marks[name]:
        yield f"it is named as a rig without a fault, and marks {marks[name][0][1]}"
    shown = marks.get(f"{match['what']}.shows")
    if not shown:
        yield f"there is no {match['what']}.shows.rig.yaml that marks the fault which this rig does not have"
        return
    yield from _judge_fine(shown[0][1], report)


def _judge_shown(one: PackUnderTest, marks: list[tuple[int, str]], report: FileReport) -> Iterator[str]:
    if len(marks) != 1:
        yield f"`# fault: CODE` must stand on one line, not on {len(marks)}"
        return
    line, code = marks[0]
    if code not in {rule.code for rule in one.pack.rules}:
        yield f"`# fault: {code}` names no rule of the pack"
        return
    lines = [finding.position.line for finding in report.findings if finding.code == code]
    if lines != [line]:
        came = f"came on line {', '.join(map(str, lines))}" if lines else "did not come"
        yield f"{code} was due once, on line {line}, and {came}:\n{show_report(report)}"
    others = [each.code for each in report.findings if each.code != code and each.grade.is_at_least(Grade.FIGHT)]
    if others:
        yield f"it shows more than its fault: {', '.join(others)}:\n{show_report(report)}"


def _judge_fine(code: str, report: FileReport) -> Iterator[str]:
    found = [each.code for each in report.findings if each.code == code or each.grade.is_at_least(Grade.FIGHT)]
    if found:
        yield f"it is fine, and {', '.join(found)} came:\n{show_report(report)}"
