"""Which parts could stand in for an item, for a person: best first, and what each would change."""

from __future__ import annotations

from rigmint.lint.compare import Turn
from rigmint.lint.stand_ins import StandIn, StandIns, Unfit
from rigmint.report.compare import list_differences
from rigmint.report.layout import count, list_some, wrap
from rigmint.report.safe import clean
from rigmint.report.style import Style
from rigmint.words import CAUTIONS

_INDENT = 2
_MOST = 4


def render_stand_ins(file: str, found: StandIns, style: Style) -> str:
    """The whole text, ending in a newline."""
    head = f"{clean(file)}   in place of {clean(found.item)}, {clean(found.part.id)}"
    lines = [head]
    if not (found.whole or found.lossy or found.unfit):
        lines += ["", f"The catalogue has no other part of kind {found.part.kind}."]
    elif not found.whole:
        lines += ["", "No part stands in with nothing lost."]
    for one in found.whole:
        lines += ["", f"{clean(one.part.id)}   nothing lost", *_describe(one, style.width)]
    for one in found.lossy:
        lines += ["", *wrap(f"{one.part.id}   would lose {list_some(one.losses, _MOST)}", style.width, 0, _INDENT)]
    if found.unfit:
        lines += ["", f"Plugs find no place on {count(len(found.unfit), 'other part')} of this kind:"]
        lines += [line for one in found.unfit for line in _describe_unfit(one, style.width)]
    lines += ["", *wrap(CAUTIONS[0], style.width)]
    return "\n".join(lines) + "\n"


def _describe(one: StandIn, width: int) -> list[str]:
    sentences = []
    if one.renamed:
        sentences.append("plug " + ", ".join(f"what is in {a} into {b}" for a, b in one.renamed.items()))
    if one.dropped:
        sentences.append(f"it has no setting {', '.join(one.dropped)}")
    gained = [change for change in one.comparison.findings if change.turn in (Turn.GAINED, Turn.WORSE)]
    sentences += [f"{change.finding.grade.value} {change.finding.code}: {change.finding.says}" for change in gained]
    lines = [line for sentence in sentences for line in wrap(sentence, width, _INDENT, _INDENT + 2)]
    differences = list_differences(one.comparison.rigs, width - _INDENT, with_kit=False)
    lines += [" " * _INDENT + line for line in differences if line]
    return lines or [" " * _INDENT + "changes nothing that is computed here"]


def _describe_unfit(one: Unfit, width: int) -> list[str]:
    return wrap(f"{one.part.id}: {list_some(one.lacking, _MOST)}", width, _INDENT, _INDENT + 2)
