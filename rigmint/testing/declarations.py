"""What a pack says of itself: its codes, its texts, its sources, its README, its tests."""

from __future__ import annotations

import re
from collections.abc import Iterator

from rigmint.lint.packs import STANDARD_PACKS
from rigmint.lint.rule import Rule
from rigmint.report.explain import render_rule
from rigmint.report.style import Style
from rigmint.testing.pack_folder import PackUnderTest
from rigmint.testing.shelves import find_marks

_ROW = re.compile(r"^\| `([a-z:-]+)` \| ([^|]+?) \| ([^|]+?) \|$", re.MULTILINE)
_PLACEHOLDER = re.compile(r"\b(todo|tbd|fixme|xxx|lorem)\b|\.\.\.|^\W*$", re.IGNORECASE)
_NO_SOURCE = frozenset({"n/a", "na", "none", "source", "unknown", "the source", "a source", "see above", "internet"})


def judge_codes(one: PackUnderTest) -> Iterator[str]:
    """The pack is loaded whole; its codes are its own, and its families are no standard pack's."""
    yield from one.faults
    taken = {rule.code: pack.name for pack, rule in one.others.rules}
    families = {rule.family: pack.name for pack, rule in one.others.rules if pack.name in STANDARD_PACKS}
    for rule in one.pack.rules:
        if rule.code in taken:
            yield f"{rule.code} is a code of the pack {taken[rule.code]} too: neither rule would be run"
        elif rule.family in families and one.pack.name not in STANDARD_PACKS:
            owner = families[rule.family]
            yield f"{rule.code}: the family `{rule.family}` is the standard pack {owner}'s; take one of your own"


def judge_texts(one: PackUnderTest) -> Iterator[str]:
    """What `explain` prints is whole: sentences, a title that is none, parameters that say what they are."""
    for rule in one.pack.rules:
        for name, text in _list_sentences(rule):
            if fault := _find_text_fault(text) or ("" if text.endswith(".") else "must end as a sentence does"):
                yield f"{rule.code}: `{name}` {fault}: {text!r}"
        if fault := _find_text_fault(rule.title) or ("has no full stop" if rule.title.endswith(".") else ""):
            yield f"{rule.code}: `title` {fault}: {rule.title!r}"
        for key, parameter in rule.parameters.items():
            if not parameter.says.strip() or _PLACEHOLDER.search(parameter.says):
                yield f"{rule.code}: the parameter {key} does not say what it is: {parameter.says!r}"
        if rule.code not in render_rule(rule, one.pack, Style()):
            yield f"{rule.code}: `explain` does not print its code"


def judge_sources(one: PackUnderTest) -> Iterator[str]:
    """Each rule says from where it is known: a published document, `common practice`, `house rule`."""
    for rule in one.pack.rules:
        source = rule.source.strip()
        if _PLACEHOLDER.search(source) or source.casefold().rstrip(".") in _NO_SOURCE or len(source) < 4:
            yield f"{rule.code}: `source` names nothing: {rule.source!r}; a document, `common practice` or `house rule`"


def judge_readme(one: PackUnderTest) -> Iterator[str]:
    """The table of its README lists its rules as they are: `| `code` | grades, worst first | title |`."""
    path = one.folder / "README.md"
    text = path.read_text(encoding="utf-8") if path.is_file() else ""
    listed = _ROW.findall(text)
    due = [(rule.code, ", ".join(rule.grades), rule.title) for rule in one.pack.rules]
    for row in sorted({row for row in due if listed.count(row) != 1}):
        yield f"README.md must hold once the row | `{row[0]}` | {row[1]} | {row[2]} |"
    for row in sorted(set(listed) - set(due)):
        yield f"README.md has a row of no rule: | `{row[0]}` | {row[1]} | {row[2]} |"


def judge_tests(one: PackUnderTest) -> Iterator[str]:
    """Each rule has tests of its own: a rig in tests/rigs that shows it, or a file tests/test_MODULE.py."""
    files = one.own_shelf.list_files().values() if one.own_shelf is not None else ()
    shown = {code for path in files for _, code in find_marks(path.read_text(encoding="utf-8"))}
    for rule in one.pack.rules:
        module = rule.check.__module__.rpartition(".")[2]
        if rule.code not in shown and not (one.folder / "tests" / f"test_{module}.py").is_file():
            yield f"{rule.code} has no rig in tests/rigs with `# fault: {rule.code}`, and no tests/test_{module}.py"


def _list_sentences(rule: Rule) -> list[tuple[str, str]]:
    texts = [("looks_for", rule.looks_for), ("why", rule.why), ("put_right", rule.put_right)]
    return texts if rule.caution is None else [*texts, ("caution", rule.caution)]


def _find_text_fault(text: str) -> str:
    """What is wrong with a text, as the end of a sentence; empty where nothing is."""
    if _PLACEHOLDER.search(text):
        return "is still a placeholder"
    if not text.isprintable() or text != " ".join(text.split()):
        return "must stand on one line, with single spaces"
    if text[0].islower():
        return "must begin with a capital letter"
    return ""
