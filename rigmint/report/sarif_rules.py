"""The tool part of a SARIF log: every rule of every installed pack, the core's codes, and references to them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from rigmint.lint.core_codes import CORE_CODES, CoreCode
from rigmint.lint.packs import Pack, PackSet
from rigmint.lint.rule import Rule
from rigmint.words import Grade

Object = dict[str, Any]

LEVELS = {
    Grade.HURT: "error",
    Grade.BURN: "error",
    Grade.DEAD: "error",
    Grade.FIGHT: "error",
    Grade.THIN: "warning",
    Grade.TIDY: "note",
}


@dataclass(frozen=True, slots=True)
class ToolPart:
    """The `tool` object, and for each code the reference by which a result or a notification names its rule."""

    tool: Object
    references: dict[str, Object]


def describe_tool(version: str, packs: PackSet) -> ToolPart:
    """The driver is rigmint with the core's codes, each pack an extension with its rules."""
    reported = [code for code in CORE_CODES if code.grade is not None]
    unread = [code for code in CORE_CODES if code.grade is None]
    references: dict[str, Object] = {}
    for codes in (reported, unread):
        for index, core in enumerate(codes):
            references[core.code] = {"id": core.code, "index": index}
    extensions = []
    for position, pack in enumerate(sorted(packs.packs, key=lambda pack: pack.name)):
        rules = sorted(pack.rules, key=lambda rule: rule.code)
        extensions.append(_describe_pack(pack, rules))
        for index, rule in enumerate(rules):
            component = {"name": pack.name, "index": position}
            references[rule.code] = {"id": rule.code, "index": index, "toolComponent": component}
    driver: Object = {
        "name": "rigmint",
        "version": version,
        "rules": [_describe_core(core) for core in reported],
        "notifications": [_describe_core(core) for core in unread],
    }
    return ToolPart({"driver": driver, "extensions": extensions}, references)


def escape_message(text: str) -> str:
    """A SARIF message: braces are doubled since they mark placeholders, and `](` is parted since it makes a link."""
    return text.replace("{", "{{").replace("}", "}}").replace("](", "] (")


def _describe_pack(pack: Pack, rules: list[Rule]) -> Object:
    return {"name": pack.name, "version": pack.version, "rules": [_describe_rule(rule) for rule in rules]}


def _describe_rule(rule: Rule) -> Object:
    help_parts = [f"Why: {rule.why}", f"To put it right: {rule.put_right}", f"Known from: {rule.source}"]
    if rule.caution:
        help_parts.append(f"Caution: {rule.caution}")
    return {
        "id": rule.code,
        "shortDescription": {"text": escape_message(rule.title)},
        "fullDescription": {"text": escape_message(rule.looks_for)},
        "help": {"text": escape_message("\n\n".join(help_parts))},
        "defaultConfiguration": {"level": LEVELS[rule.grades[0]]},
        "properties": {"grades": [grade.value for grade in rule.grades]},
    }


def _describe_core(core: CoreCode) -> Object:
    return {
        "id": core.code,
        "shortDescription": {"text": escape_message(core.title)},
        "help": {"text": escape_message(core.put_right)},
        "defaultConfiguration": {"level": LEVELS[core.grade] if core.grade is not None else "error"},
    }
