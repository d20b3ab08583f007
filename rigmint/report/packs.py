"""What `rigmint packs` prints: each pack with its version, who brings it, and its rules."""

from __future__ import annotations

from rigmint.lint.packs import Pack, PackSet
from rigmint.report.layout import INDENT, count, wrap
from rigmint.report.safe import clean
from rigmint.report.style import Style
from rigmint.report.text import render_faults


def render_packs(packs: PackSet, style: Style) -> str:
    """All packs by name, then those that could not be used."""
    ordered = sorted(packs.packs, key=lambda pack: pack.name)
    rules = sum(len(pack.rules) for pack in ordered)
    blocks = ["\n".join(_describe_pack(pack, style)) + "\n" for pack in ordered]
    if packs.faults:
        blocks.append(render_faults(packs.faults, style))
    closing = f"{count(len(ordered), 'pack')}, {count(rules, 'rule')}." if ordered else "No pack is installed."
    return "\n".join([*blocks, closing]) + "\n"


def _describe_pack(pack: Pack, style: Style) -> list[str]:
    brought = f", brought by {', '.join(pack.distributions)}" if pack.distributions else ""
    lines = [clean(f"{pack.name} {pack.version}{brought}")]
    width = max((len(rule.code) for rule in pack.rules), default=0) + 3
    for rule in sorted(pack.rules, key=lambda rule: rule.code):
        grade = rule.grades[0]
        first, *rest = wrap(rule.title, style.width, INDENT + width)
        head = f"{style.paint(grade, grade)}{' ' * (INDENT - len(grade))}{rule.code:<{width}}"
        lines += [head + first.lstrip(), *rest]
    return lines
