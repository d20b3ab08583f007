"""Random trees, written as YAML in random layouts: block and flow, quoted and bare, comments, indents, line ends."""

from __future__ import annotations

import json
from dataclasses import dataclass

from hypothesis import strategies as st

from rigmint.library.document import Value

KEYS = st.sampled_from(
    ["head", "lens", "P1", "SDI-2", "head.mode", "set", "setups", "two_up", "1", "P5:b", "a b", "who"]
)
TEXTS = st.sampled_from(
    ["on", "off", "none", "plate.tap_1 > breakout.in", "12:30", "2.10", "25", "true", "null", "", " lead", "it's", 'a "b"',
     "a: b", "a #b", "#a", "- a", "é😀", "{x}", "[x]", "a,b", "*x", "&x", "!x", "%x", "@x", "line\nbreak", "tab\there",
     "5 V", "-1", "? a", "a:", "\x85", "\u2028", "---", "~", "0o7", "1e3"]
)  # fmt: skip
SCALARS = st.one_of(TEXTS, st.integers(-9, 99), st.booleans(), st.none(), st.sampled_from([2.5, -0.25]))
TREES: st.SearchStrategy[Value] = st.recursive(
    SCALARS,
    lambda inner: st.one_of(st.dictionaries(KEYS, inner, max_size=4), st.lists(inner, max_size=4)),
    max_leaves=12,
)
FILES: st.SearchStrategy[dict[str, Value]] = st.dictionaries(KEYS, TREES, min_size=1, max_size=5)
"""A file is a mapping, as every file of the format is."""


@dataclass(slots=True)
class Writer:
    """Writes a tree; every choice of layout is drawn."""

    draw: st.DrawFn
    step: int
    comments: int = 0

    def write_block(self, value: Value, indent: int) -> list[str]:
        """The lines of a non-empty collection in block style."""
        lines: list[str] = []
        pad = " " * indent
        if isinstance(value, dict):
            for key, item in value.items():
                lines += self._write_entry(f"{pad}{self._key(key)}:", item, indent)
        elif isinstance(value, list):
            for item in value:
                lines += self._write_item(pad, item, indent)
        return lines

    def _write_entry(self, head: str, item: Value, indent: int) -> list[str]:
        lines = [f"{' ' * indent}{self._comment()}"] if self._maybe(8) else []
        if _is_full(item) and self._maybe(2):
            return [*lines, head + self._tail(), *self.write_block(item, indent + self.step)]
        if item is None and self._maybe(2):
            return [*lines, head + self._tail()]
        return [*lines, f"{head} {self.write_flow(item, indent)}{self._tail()}"]

    def _write_item(self, pad: str, item: Value, indent: int) -> list[str]:
        if isinstance(item, dict) and item and self._maybe(2):
            first, *rest = self.write_block(item, indent + 2)
            if first.lstrip().startswith("#"):
                return [f"{pad}-", first, *rest]
            return [f"{pad}- {first[indent + 2 :]}", *rest]
        return [f"{pad}- {self.write_flow(item, indent)}{self._tail()}"]

    def write_flow(self, value: Value, indent: int) -> str:
        """A value in brackets, over several lines now and then."""
        if isinstance(value, dict):
            return self._bracket(
                "{", "}", [f"{self._key(k, flow=True)}: {self.write_flow(v, indent)}" for k, v in value.items()], indent
            )
        if isinstance(value, list):
            return self._bracket("[", "]", [self.write_flow(item, indent) for item in value], indent)
        return self._scalar(value)

    def _bracket(self, start: str, end: str, entries: list[str], indent: int) -> str:
        if not entries:
            return f"{start}{self._space()}{end}"
        pad = "\n" + " " * (indent + 6)
        way = self.draw(st.integers(0, 4))
        comma = "," if self._maybe(4) else ""
        if way == 0:
            return f"{start}{pad}{f',{pad}'.join(entries)}{comma}{pad}{end}"
        if way == 1:
            note = f" {self._comment()}"
            return f"{start}{f',{note}{pad}'.join(entries)}{comma}{note}{pad}{end}"
        space = self._space()
        return f"{start}{space}{', '.join(entries)}{comma}{space}{end}"

    def _scalar(self, value: Value) -> str:
        if isinstance(value, str):
            if value.isprintable() and self._maybe(4):
                return "'" + value.replace("'", "''") + "'"
            if value.isascii() and value.replace("_", "").isalnum() and value in ("on", "off", "none"):
                return value if self._maybe(2) else f'"{value}"'
            return json.dumps(value).replace("\\ud83d\\ude00", "😀")
        return (
            {None: "null", True: "true", False: "false"}.get(value, str(value))
            if not isinstance(value, (int, float)) or isinstance(value, bool)
            else str(value)
        )

    def _key(self, key: str, *, flow: bool = False) -> str:
        needs = " " in key or (flow and ":" in key)
        return json.dumps(key) if needs or self._maybe(6) else key

    def _comment(self) -> str:
        self.comments += 1
        return f"# note {self.comments} - it's {{so}}"

    def _tail(self) -> str:
        return f"{self._space()}  {self._comment()}" if self._maybe(4) else ""

    def _space(self) -> str:
        return " " * self.draw(st.integers(0, 1))

    def _maybe(self, one_in: int) -> bool:
        return self.draw(st.integers(1, one_in)) == 1


def _is_full(value: Value) -> bool:
    return isinstance(value, (dict, list)) and bool(value)


@st.composite
def write_files(draw: st.DrawFn) -> tuple[dict[str, Value], str]:
    """A tree and a text that holds it."""
    tree = draw(FILES)
    writer = Writer(draw, draw(st.sampled_from([2, 2, 3, 4])))
    lines = writer.write_block(tree, 0) if draw(st.integers(1, 5)) > 1 else [writer.write_flow(tree, 0)]
    text = "\n".join(lines)
    text = f"# first line\n\n{text}" if draw(st.booleans()) else text
    text += draw(st.sampled_from(["\n", "\n", "\n# last line\n", "", "\n\n"]))
    return tree, text.replace("\n", draw(st.sampled_from(["\n", "\n", "\r\n"])))
