"""Misplugs for a person: what burns first, by the socket that dies; then what only fails to work; a bench last."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rigmint.report.layout import count, list_some, show_tenths, wrap
from rigmint.report.misplug_groups import (
    Culprit,
    VictimGroup,
    group_by_victim,
    group_failures,
    sort_misplugs,
)
from rigmint.report.misplug_words import say_culprit, say_failure, say_fate, say_remedy
from rigmint.report.safe import clean
from rigmint.report.style import Style
from rigmint.rig.rig import Rig
from rigmint.study.misplug.mistakes import How
from rigmint.study.misplug.outcome import Misplug, Outcome
from rigmint.study.misplug.study import MisplugStudy
from rigmint.words import CAUTIONS, Grade

_INDENT = 7
_VOLTS_COLUMN = 8
_MOST_VICTIMS = 6
_MOST_FURTHER = 6
_MOST_FAILURES = 40


def render_misplug(rig: Rig, study: MisplugStudy, setups: Sequence[str], style: Style) -> str:
    """The whole text, ending in a newline."""
    misplugs = sort_misplugs(rig, study.misplugs)
    lines = [f"{clean(rig.file)}   misplugs, {count(len(setups), 'setup')}", ""]
    lines += wrap(_say_counts(study), style.width)
    near = [one for one in misplugs if one.mistake.same_place]
    bench = [one for one in misplugs if not one.mistake.same_place]
    lines += _render_burns("What burns, within reach", rig, near, style)
    lines += _render_perhaps(rig, near, style)
    lines += _render_failures("What only fails to work, within reach", near, style)
    lines += _render_burns("On a bench only: what burns", rig, bench, style)
    lines += _render_perhaps(rig, bench, style)
    lines += _render_failures("On a bench only: what fails to work", bench, style)
    lines.append("")
    for caution in CAUTIONS:
        lines += wrap(caution, style.width)
    return "\n".join(lines) + "\n"


def _say_counts(study: MisplugStudy) -> str:
    kinds = {how: len({one.mistake.key for one in study.misplugs if one.mistake.how is how}) for how in How}
    words = {
        How.MOVED: ("end in a wrong socket", "ends in wrong sockets"),
        How.SWAPPED: ("lead in the place of another", "leads in the place of another"),
        How.TURNED: ("lead turned round", "leads turned round"),
        How.FORCED: ("plug forced in", "plugs forced in"),
    }
    listed = [f"{number} {words[how][number != 1]}" for how, number in kinds.items() if number]
    worst: dict[tuple[object, ...], Outcome] = {}
    order = list(Outcome)
    for one in study.misplugs:
        before = worst.get(one.mistake.key, Outcome.HARMLESS)
        worst[one.mistake.key] = min(before, one.outcome, key=order.index)
    outcomes = [sum(found is outcome for found in worst.values()) for outcome in order]
    return (
        f"{count(study.tried, 'misplug')} tried{': ' if listed else ''}{', '.join(listed)}."
        f" {outcomes[0]} burn, {outcomes[1]} only fail to work, {outcomes[2]} do no harm."
    )


def _render_burns(title: str, rig: Rig, misplugs: Iterable[Misplug], style: Style) -> list[str]:
    groups = group_by_victim(rig, [one for one in misplugs if one.outcome is Outcome.BURN])
    if not groups:
        return []
    lines = ["", title]
    for group in groups:
        lines += ["", *_render_victims(rig, group, style)]
    return lines


def _render_perhaps(rig: Rig, misplugs: Iterable[Misplug], style: Style) -> list[str]:
    groups = group_by_victim(rig, [one for one in misplugs if one.perhaps], perhaps=True)
    if not groups:
        return []
    lines = ["", *wrap("Burns only if a regulator lets current back, which its part does not state", style.width)]
    for group in groups:
        lines += ["", *_render_victims(rig, group, style)]
    return lines


def _render_victims(rig: Rig, group: VictimGroup, style: Style) -> list[str]:
    word = Grade.THIN if group.is_marked else Grade.BURN
    named = list_some([ref.place for ref in group.victims], _MOST_VICTIMS)
    first, *rest = wrap(f"{named}: {say_fate(rig, group)}", style.width, 0, _INDENT)
    lines = [style.paint(first, word), *rest]
    for culprit in group.culprits:
        lines += _render_culprit(culprit, group, style.width)
    if group.further:
        lines += wrap(f"Further on: {list_some(group.further, _MOST_FURTHER)}.", style.width, _INDENT)
    if group.is_marked:
        marks = dict.fromkeys(mark for culprit in group.culprits for mark in culprit.marks)
        told = [f"{place} ({rig.marked[place]})" for place in marks]
        return [*lines, *wrap(f"Marked: {list_some(told, _MOST_FURTHER)}.", style.width, _INDENT)]
    return [*lines, *wrap(f"Remedy: {say_remedy(rig, group)}", style.width, _INDENT)]


def _render_culprit(culprit: Culprit, group: VictimGroup, width: int) -> list[str]:
    volts = f"{show_tenths(abs(culprit.volts))} V"
    said = say_culprit(culprit, with_marks=not group.is_marked)
    return wrap(f"{volts:<{_VOLTS_COLUMN}}{said}", width, _INDENT, _INDENT + _VOLTS_COLUMN)


def _render_failures(title: str, misplugs: Iterable[Misplug], style: Style) -> list[str]:
    groups = group_failures([one for one in misplugs if one.outcome is Outcome.DEAD])
    if not groups:
        return []
    lines = ["", title, ""]
    shown = groups[:_MOST_FAILURES]
    for group in shown:
        lines += wrap(say_failure(group), style.width, 0, _INDENT)
    if len(groups) > len(shown):
        lines += wrap(f"and {len(groups) - len(shown)} more: `--as json` lists all.", style.width)
    return lines
