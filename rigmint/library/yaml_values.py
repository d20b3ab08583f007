"""Values as YAML text, in the manner of the rig files: leaves in one line, what holds more over several lines."""

from __future__ import annotations

import re

from rigmint.library.document import Value
from rigmint.library.tree_edits import EditRefused
from rigmint.library.yaml import resolve_scalar

_PLAIN = re.compile(r"[^\s\-?:,\[\]{}#&*!|>'\"%@`=](.*\S)?", re.DOTALL)
_COUNT = re.compile(r"0|-?[1-9][0-9]{0,17}")
_DOCUMENT_MARKS = ("---", "...")


def render_scalar(value: Value, *, in_flow: bool, quote: str = "", like_number: bool = False) -> str:
    """One scalar. `quote`: the quotation mark of what stood there, kept for text. Text that would be read as another
    kind is quoted, save whole numbers, which the format takes as they are written; `like_number`: what stood there was
    a number or a word such as true, so that the new text of such a kind stands bare too."""
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (int, float)):
        return str(value)
    text = str(value)
    if quote == "'" and text.isprintable():
        return "'" + text.replace("'", "''") + "'"
    if quote == '"':
        return _quote(text)
    resolved = resolve_scalar(text) if text else None
    if not isinstance(resolved, str) and resolved is not None and (like_number or _COUNT.fullmatch(text)):
        return text
    return text if isinstance(resolved, str) and _stands_bare(text, in_flow=in_flow) else _quote(text)


def render_key(key: str, *, in_flow: bool, quote: str = "") -> str:
    """A key. A colon inside a word is quoted in a flow mapping, where not every parser takes it bare."""
    if quote:
        return render_scalar(key, in_flow=in_flow, quote=quote)
    return key if _stands_bare(key, in_flow=in_flow) or _COUNT.fullmatch(key) else _quote(key)


def render_flow(value: Value, *, quote: str = "") -> str:
    """A value in one line: `{a: 1, b: [x, y]}`. `quote`: put around every key and text, as a JSON file has it."""
    if isinstance(value, dict):
        return "{" + ", ".join(render_pair(key, item, quote=quote) for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(render_flow(item, quote=quote) for item in value) + "]"
    return render_scalar(value, in_flow=True, quote=quote)


def render_pair(key: str, value: Value, *, quote: str = "") -> str:
    """One entry of a flow mapping."""
    return f"{render_key(key, in_flow=True, quote=quote)}: {render_flow(value, quote=quote)}"


def render_entry(key: str, value: Value, indent: int, step: int) -> list[str]:
    """The lines of one entry of a block mapping."""
    head = f"{' ' * indent}{render_key(key, in_flow=False)}:"
    if fits_one_line(value):
        shown = render_flow(value) if isinstance(value, (dict, list)) else render_scalar(value, in_flow=False)
        return [f"{head} {shown}"]
    return [head, *render_children(value, indent + step, step)]


def render_children(value: Value, indent: int, step: int) -> list[str]:
    """The lines of a block collection."""
    if isinstance(value, dict):
        return [line for key, item in value.items() for line in render_entry(key, item, indent, step)]
    if isinstance(value, list):
        return [render_dash(item, indent) for item in value]
    msg = "a scalar has no children"
    raise TypeError(msg)


def render_dash(item: Value, indent: int) -> str:
    """The line of one entry of a block list."""
    shown = render_flow(item) if isinstance(item, (dict, list)) else render_scalar(item, in_flow=False)
    return f"{' ' * indent}- {shown}"


def fits_one_line(value: Value) -> bool:
    """Whether a value is a leaf: a scalar, or a collection of scalars."""
    held: list[Value] = []
    if isinstance(value, dict):
        held = list(value.values())
    elif isinstance(value, list):
        held = value
    return not any(isinstance(item, (dict, list)) for item in held)


def _stands_bare(text: str, *, in_flow: bool) -> bool:
    if _PLAIN.fullmatch(text) is None or not text.isprintable() or text.startswith(_DOCUMENT_MARKS):
        return False
    if ": " in text or " #" in text or text.endswith(":"):
        return False
    return not (in_flow and any(mark in text for mark in ",[]{}:?"))


def _quote(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(letter if letter.isprintable() else _escape(letter) for letter in escaped) + '"'


def _escape(letter: str) -> str:
    code = ord(letter)
    if 0xD800 <= code < 0xE000:
        msg = "it holds half a letter, which no text has"
        raise EditRefused(msg)
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"
