"""The contract between the core and packs, from hook specifications, public names and their docstrings."""

from __future__ import annotations

import dataclasses
import inspect
from collections.abc import Iterator

import rigmint
from rigmint.lint.packs import ENTRY_POINTS, PACK_API, PackHooks

_TOLD_WHOLE = ("Rule", "Parameter", "Finding", "Fix", "Measured", "Unknown")
"""Records that a pack makes itself: every field of them is told."""


def list_contract() -> Iterator[str]:
    """Lines of Markdown."""
    yield from ("# Pack contract", "")
    yield f"Version {PACK_API}. A pack is a module with `PACK_API = {PACK_API}` that stands under the entry-point group"
    yield f"`{ENTRY_POINTS}` and implements:"
    for name, hook in inspect.getmembers(PackHooks, inspect.isfunction):
        yield from ("", f"- `{name}{_sign(hook)}`: {_say(hook)}")
    yield from ("", "It imports from `rigmint` itself and from nothing inside it.")
    for name in _TOLD_WHOLE:
        yield from _describe_record(name)
    yield from _describe_case()
    yield from ("", "## All public names", "", "| name | what it is |", "| --- | --- |")
    for name in rigmint.__all__:
        yield f"| `{name}` | {_say(getattr(rigmint, name))} |"


def _describe_record(name: str) -> Iterator[str]:
    record = getattr(rigmint, name)
    yield from ("", f"## {name}", "", inspect.getdoc(record) or "", "")
    for field in dataclasses.fields(record):
        optional = field.default is not dataclasses.MISSING or field.default_factory is not dataclasses.MISSING
        yield f"- `{field.name}: {field.type}`{' (may be left out)' if optional else ''}"


def _describe_case() -> Iterator[str]:
    yield from ("", "## Case", "", inspect.getdoc(rigmint.Case) or "", "")
    for name, member in inspect.getmembers(rigmint.Case):
        if name.startswith("_"):
            continue
        if isinstance(member, property):
            yield f"- `{name}`: {_say(member.fget)}"
        elif inspect.isfunction(member):
            yield f"- `{name}{_sign(member)}`: {_say(member)}"


def _sign(function: object) -> str:
    """The parameters and what comes back, without `self`."""
    if not callable(function):
        return ""
    signature = inspect.signature(function)
    kept = [one for name, one in signature.parameters.items() if name != "self"]
    return str(signature.replace(parameters=kept)).replace("'", "")


def _say(thing: object) -> str:
    """The first paragraph of a docstring; of a plain value, the value."""
    if isinstance(thing, (str, int, tuple)):
        return f"`{thing}`" if not isinstance(thing, tuple) else f"`{', '.join(map(str, thing))}`"
    paragraph = (inspect.getdoc(thing) or "").partition("\n\n")[0]
    return " ".join(paragraph.split()).replace("|", "\\|")
