"""What `rigmint explain` prints: everything that a rule or a code of the core holds."""

from __future__ import annotations

from rigmint.lint.core_codes import CoreCode
from rigmint.lint.packs import Pack
from rigmint.lint.rule import Parameter, Rule
from rigmint.report.layout import lay_head, wrap, wrap_paragraphs
from rigmint.report.quantities import show_quantity
from rigmint.report.safe import clean
from rigmint.report.style import UNREAD, Style

_INDENT = 4


def render_rule(rule: Rule, pack: Pack, style: Style) -> str:
    """A rule of a pack."""
    grades = [f"{style.paint(grade, grade)}: {grade.meaning}" for grade in rule.grades]
    lines = lay_head(clean(rule.code), f"pack {pack.name} {pack.version}", style.width, _INDENT)
    lines += wrap_paragraphs(rule.title, style.width, 0)
    for heading, text in (
        ("Looks for", rule.looks_for),
        ("Why", rule.why),
        ("To put it right", rule.put_right),
        ("Known from", rule.source),
    ):
        lines += ["", heading, *wrap_paragraphs(text, style.width, _INDENT)]
    lines += [
        "",
        "Grade" if len(grades) == 1 else "Grades, worst first",
        *(" " * _INDENT + line for line in grades),
    ]
    if rule.parameters:
        lines += ["", f"Figures that a library may set, under `rules: {rule.code}:`"]
        for name, parameter in rule.parameters.items():
            lines += _describe_parameter(name, parameter, style.width)
    if rule.caution:
        lines += ["", "Caution", *wrap_paragraphs(rule.caution, style.width, _INDENT)]
    return "\n".join(lines) + "\n"


def render_core_code(core: CoreCode, style: Style) -> str:
    """A code of the core."""
    word, meaning = (core.grade, core.grade.meaning) if core.grade else (UNREAD, "could not be checked; exit status 2")
    lines = [
        *lay_head(core.code, "rigmint itself", style.width, _INDENT),
        *wrap(core.title, style.width),
        "",
        "To put it right",
        *wrap(core.put_right, style.width, _INDENT),
        "",
        "Grade",
        f"{' ' * _INDENT}{style.paint(word, word)}: {meaning}",
    ]
    return "\n".join(lines) + "\n"


def _describe_parameter(name: str, parameter: Parameter, width: int) -> list[str]:
    default = show_quantity(parameter.default, parameter.kind)
    return wrap(f"{name}: {default}. {parameter.says}", width, _INDENT, _INDENT + 2)
