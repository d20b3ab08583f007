"""Power for a person: each setup as the trees of its sources, volts at three points, then leads and sentences."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rigmint.report.layout import count, list_some, wrap
from rigmint.report.power_day import say_day
from rigmint.report.power_leads import lay_leads, list_shorts
from rigmint.report.power_rows import lay_trees
from rigmint.report.power_setup import PowerReport, SetupPower
from rigmint.report.power_words import (
    list_collapses,
    list_idle_inputs,
    list_limited,
    list_outside,
    list_unfed,
    say_change,
    say_change_over,
    say_margin,
    say_runtime,
)
from rigmint.report.safe import clean
from rigmint.report.style import Style
from rigmint.study.power import Point, Power
from rigmint.study.power_tree import SourceTree, grow_trees
from rigmint.words import CAUTIONS, Grade

_MOST_FIGURES = 8
_HANGING = 2


def render_power(report: PowerReport, style: Style) -> str:
    """The whole text, ending in a newline; the setups in the order of the rig file."""
    lines = [f"{clean(report.rig.file)}   power, {count(len(report.setups), 'setup')}"]
    for name, shown in report.setups.items():
        lines += ["", *_describe_setup(report, name, shown, style)]
    lines += ["", *(line for text in (_say_assumed(report), *CAUTIONS) for line in wrap(text, style.width))]
    return "\n".join(lines) + "\n"


def _say_assumed(report: PowerReport) -> str:
    if not report.assumed:
        return "No figure is assumed."
    return f"{count(len(report.assumed), 'figure')} assumed (~): {list_some(report.assumed, _MOST_FIGURES)}."


def _describe_setup(report: PowerReport, name: str, shown: SetupPower, style: Style) -> list[str]:
    if not shown.power.circuit.sources:
        return wrap(f"{name}: no source of power is here.", style.width)
    point = _choose_point(shown.power)
    trees: tuple[SourceTree, ...] = ()
    lines = wrap(name, style.width)
    solution = shown.power.points[point].solution if point is not None else None
    if solution is not None and point is not None:
        trees = grow_trees(report.rig, shown.setup, shown.power.circuit, solution)
        lines = lay_trees(report.rig, name, shown.power, point, trees, style)
        leads = _list_leads(trees)
        lines += ["", *lay_leads(report.rig, shown.power, point, leads, style)] if leads else []
    lines.append("")
    if shown.burns:
        says = "This wiring burns something: `rigmint check` says what. No figure of it is one to work by."
        lines += [style.paint(line, Grade.BURN) for line in wrap(says, style.width, 0, _HANGING)]
    for text in _list_alarms(report, shown, trees):
        lines += [style.paint(line, Grade.DEAD) for line in wrap(text, style.width, 0, _HANGING)]
    for text in _list_sentences(report, shown, point, trees):
        lines += wrap(text, style.width, 0, _HANGING)
    return lines


def _choose_point(power: Power) -> Point | None:
    """The point whose currents are shown: change, the hardest, else the hardest that has a solution."""
    return next((point for point in (Point.CHANGE, Point.TYPICAL, Point.FULL) if power.points[point].solved), None)


def _list_leads(trees: Sequence[SourceTree]) -> list[str]:
    """The leads that bring power to a port, in the order of the trees."""
    labels = (branch.lead for tree in trees for branch in tree.branches)
    return list(dict.fromkeys(label for label in labels if label is not None))


def _list_alarms(report: PowerReport, shown: SetupPower, trees: Sequence[SourceTree]) -> Iterator[str]:
    yield from list_collapses(shown.power)
    yield from (f"{text}." for text in list_limited(shown.power))
    refs = dict.fromkeys(branch.ref for tree in trees for branch in tree.branches)
    outside = list(list_outside(report.rig, shown.power, refs))
    if outside:
        yield f"Outside the window: {'; '.join(outside)}."


def _list_sentences(
    report: PowerReport, shown: SetupPower, point: Point | None, trees: Sequence[SourceTree]
) -> Iterator[str]:
    if point is not None:
        busy = {branch.ref for tree in trees for branch in tree.branches}
        unfed, idle = list_unfed(shown, trees), list_idle_inputs(report.rig, shown, point, busy)
        if unfed:
            yield f"Without power: {', '.join(unfed)}."
        if idle:
            yield f"Inputs that carry nothing, in V: {', '.join(idle)}."
    if shown.setup.off:
        yield f"Off: {', '.join(sorted(shown.setup.off))}."
    if point is not None:
        yield from list_shorts(report.rig, shown.power, shown.power.points[point], shown.setup.off)
    sentences = (
        say_change(report, shown),
        say_margin(shown.power),
        say_runtime(report, shown),
        say_day(shown.day),
        say_change_over(shown, trees),
    )
    yield from (text for text in sentences if text)
