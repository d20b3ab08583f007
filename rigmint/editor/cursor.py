"""Where a cursor stands in a file that may be half typed: the keys around it, and the word that it ends.

Read from the lines above and not from a parsed tree, since a text that is being typed is seldom whole YAML.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_ENTRY = re.compile(
    r"""(?P<indent>[ ]*)(?P<dashes>(?:-[ ]+)*)(?:(?P<key>"[^"]*"|'[^']*'|[^\s'"{}\[\],#&*!|>][^:#]*?)[ ]*:(?=\s|$))?"""
)
_WORD = re.compile(r"[\w./:+-]*$")


@dataclass(frozen=True, slots=True)
class Cursor:
    """`keys`: from the top, the keys of the mappings around the cursor; the last is the key whose value is being typed,
    unless `is_key`, where a key of the mapping at `keys` is. An entry of a list has no key. `word`: what stands before
    the cursor of the word that it ends."""

    keys: tuple[str, ...]
    word: str
    is_key: bool


def read_cursor(text: str) -> Cursor:
    """The cursor at the end of a text."""
    block: list[tuple[int, str]] = []
    flow: list[str | None] = []
    """For each open bracket: the key whose value is due, empty where a key is; None in a list."""
    bare = ""
    lines = text.split("\n")
    column = 0
    for line in lines:
        rest, bare = line, ""
        if not flow:
            found = _ENTRY.match(line)
            assert found is not None
            column = len(found["indent"]) + len(found["dashes"])
            if line.strip() or line is lines[-1]:
                while block and block[-1][0] >= column:
                    block.pop()
            if found["key"] is not None:
                block.append((column, found["key"].strip("\"'")))
            rest = line[found.end() :]
            bare = rest
        _follow_flow(rest, flow)
    word = _WORD.search(lines[-1])
    typed = word[0] if word is not None else ""
    keys = [key for _, key in block]
    if flow:
        keys += [key for key in flow if key]
        return Cursor(tuple(keys), typed, is_key=flow[-1] == "")
    found = _ENTRY.match(lines[-1])
    is_key = found is not None and found["key"] is None and not found["dashes"] and bare.strip() == typed
    return Cursor(tuple(keys), typed, is_key)


def _follow_flow(text: str, flow: list[str | None]) -> None:
    """Go over a line's part that may hold brackets."""
    quote, word, before = "", "", " "
    for index, letter in enumerate(text):
        if quote:
            quote = "" if letter == quote else quote
            word += letter
        elif letter in "\"'" and not word.strip():
            quote, word = letter, ""
        elif letter == "#" and before.isspace():
            break
        elif letter in "{[" and (flow or not word.strip()):
            flow.append("" if letter == "{" else None)
            word = ""
        elif letter in "}]" and flow:
            flow.pop()
            word = ""
        elif letter == "," and flow:
            flow[-1] = None if flow[-1] is None else ""
            word = ""
        elif letter == ":" and flow and flow[-1] == "" and text[index + 1 : index + 2] in ("", " "):
            flow[-1] = word.strip().strip("\"'")
            word = ""
        else:
            word += letter
        before = letter
