"""How a file is laid out: where entries begin and end in its text, how deep they are indented."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TypeAlias

from rigmint.library.document import Document, Path, Span, Value

Collection: TypeAlias = "dict[str, Value] | list[Value]"

_COLON = re.compile(r"[ \t]*:")
_BREAK = re.compile(r"\r\n|\n|\r")
_REST_OF_LINE = re.compile(r"[^\r\n]*")
_SPACE_AND_COMMENTS = re.compile(r"(?:\s|(?<=\s)#[^\r\n]*)*")
_DEFAULT_STEP = 2


class Layout:
    """The text of one document with its marks. All offsets count characters."""

    def __init__(self, document: Document) -> None:
        self.text = document.text
        self.tree = document.tree
        self._marks = document.marks
        self.keys: Mapping[Path, Span] = document.marks.keys
        """The span of the key of each entry, by path."""
        first = _BREAK.search(self.text)
        self.line_break = first.group() if first else "\n"
        self.step = self._find_step()

    def value(self, path: Path) -> Value:
        """What stands at a path."""
        here: Value = self.tree
        for key in path:
            if isinstance(here, dict):
                here = here[str(key)]
            elif isinstance(here, list) and isinstance(key, int):
                here = here[key]
            else:
                raise KeyError(path)
        return here

    def span(self, path: Path) -> Span:
        """Where the value at a path stands. An empty one stands right after its colon."""
        span = self._marks.values[path]
        if span.start == span.end and path in self.keys:
            after = self.after_colon(path)
            return Span(after, after, span.position)
        return span

    def key_span(self, path: Path) -> Span:
        """Where the key of an entry stands."""
        return self.keys[path]

    def after_colon(self, path: Path) -> int:
        """Behind the colon of an entry; behind its key, where there is none."""
        end = self.keys[path].end
        found = _COLON.match(self.text, end)
        return found.end() if found else end

    def has_colon(self, path: Path) -> bool:
        """Whether the entry has a colon: a bare key in a flow mapping stands for one without a value."""
        return _COLON.match(self.text, self.keys[path].end) is not None

    def is_empty(self, path: Path) -> bool:
        """Whether nothing is written for the value."""
        span = self._marks.values[path]
        return span.start == span.end

    def is_flow(self, path: Path) -> bool:
        """Whether a collection is written in brackets."""
        span = self._marks.values[path]
        return self.text[span.start : span.start + 1] in ("{", "[") and span.end > span.start

    def lies_in_flow(self, path: Path) -> bool:
        """Whether the entry at a path lies in brackets."""
        return any(self.is_flow(path[:length]) for length in range(len(path)))

    def quote_of(self, path: Path) -> str:
        """The quotation mark of a scalar, or nothing."""
        return self._quote_at(self._marks.values[path])

    def quote_of_key(self, path: Path) -> str:
        """The quotation mark of a key, or nothing."""
        return self._quote_at(self.keys[path])

    def content_end(self, path: Path) -> int:
        """Behind the last character of a value, without what follows it: comments, empty lines."""
        value = self.value(path)
        if isinstance(value, (dict, list)) and value and not self.is_flow(path):
            last = list(value)[-1] if isinstance(value, dict) else len(value) - 1
            return self.content_end((*path, last))
        span = self.span(path)
        if self._is_block_scalar(span):
            return self._block_scalar_end(span)
        return span.end

    def line_start(self, offset: int) -> int:
        """The start of the line of an offset."""
        return max(self.text.rfind("\n", 0, offset), self.text.rfind("\r", 0, offset)) + 1

    def line_end(self, offset: int) -> int:
        """The end of the line of an offset, before its line break."""
        found = _REST_OF_LINE.match(self.text, offset)
        return found.end() if found else offset

    def next_line(self, offset: int) -> int:
        """The start of the next line, or the end of the text."""
        end = self.line_end(offset)
        found = _BREAK.match(self.text, end)
        return found.end() if found else end

    def column(self, offset: int) -> int:
        """Characters before an offset on its line."""
        return offset - self.line_start(offset)

    def begins_line(self, offset: int) -> bool:
        """Whether only spaces stand before an offset on its line."""
        return not self.text[self.line_start(offset) : offset].strip(" ")

    def skip_space(self, offset: int) -> int:
        """Behind spaces, line breaks and comments."""
        found = _SPACE_AND_COMMENTS.match(self.text, offset)
        return found.end() if found else offset

    def find_dash(self, path: Path) -> int | None:
        """Where the dash of an entry of a block list stands, if it begins its line; else None."""
        before = self.text[: self._marks.values[path].start].rstrip(" \r\n")
        dash = len(before) - 1
        return dash if before.endswith("-") and self.begins_line(dash) else None

    def _quote_at(self, span: Span) -> str:
        first = self.text[span.start : span.start + 1]
        return first if first in ("'", '"') and span.end > span.start + 1 else ""

    def _is_block_scalar(self, span: Span) -> bool:
        return self.text[span.start : span.start + 1] in ("|", ">") and span.end > span.start

    def _block_scalar_end(self, span: Span) -> int:
        header = self.text[span.start : self.line_end(span.start)].partition("#")[0]
        written = self.text[span.start : span.end]
        if "+" in header:  # keeps the empty lines behind it
            last = list(_BREAK.finditer(written))
            return span.start + (last[-1].start() if last and last[-1].end() == len(written) else len(written))
        return span.start + len(written.rstrip())

    def _find_step(self) -> int:
        """By how much the first nested block mapping is indented."""
        for path, span in self.keys.items():
            if len(path) > 1 and path[:-1] in self.keys and not self.lies_in_flow(path):
                inner = self.column(span.start)
                outer = self.column(self.keys[path[:-1]].start)
                if inner > outer and self.begins_line(span.start):
                    return inner - outer
        return _DEFAULT_STEP
