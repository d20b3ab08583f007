"""The codes, from the rules of the installed packs and from the core."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint.lint.core_codes import CORE_CODES
from rigmint.lint.packs import PackSet
from rigmint.lint.rule import Rule
from rigmint.report.quantities import show_quantity
from rigmint.words import Grade


def list_codes(packs: PackSet) -> Iterator[str]:
    """Lines of Markdown: a section a pack, an entry a code."""
    yield from ("# Codes", "", "Grades, worst first:", "")
    yield from (f"- `{grade.value}`: {grade.meaning}" for grade in Grade)
    for pack in packs.packs:
        yield from ("", f"## Pack {pack.name} {pack.version}")
        for rule in pack.rules:
            yield from _describe_rule(rule)
    yield from ("", "## The core")
    for core in CORE_CODES:
        grade = core.grade.value if core.grade is not None else "unread: exit status 2"
        yield from ("", f"### `{core.code}`", "", f"{core.title} ({grade}).", "", f"To put it right: {core.put_right}")


def _describe_rule(rule: Rule) -> Iterator[str]:
    yield from ("", f"### `{rule.code}`", "", f"{rule.title} ({', '.join(grade.value for grade in rule.grades)}).")
    for head, text in (
        ("Looks for", rule.looks_for),
        ("Why", rule.why),
        ("To put it right", rule.put_right),
        ("Known from", rule.source),
        ("Caution", rule.caution or ""),
    ):
        if text:
            yield from ("", f"**{head}.** {text.strip()}")
    if rule.parameters:
        yield from ("", f"Figures that a library may set under `rules: {rule.code}:`", "")
    for name, parameter in rule.parameters.items():
        yield f"- `{name}`, by default {show_quantity(parameter.default, parameter.kind)}: {parameter.says}"
