"""Places in a text as the protocol counts them: lines from 0, columns from 0 in units of an encoding."""

from __future__ import annotations

import bisect
import re
from collections.abc import Callable

_BREAK = re.compile(r"\r\n|\n|\r")
_COUNTS: dict[str, Callable[[str], int]] = {
    "utf-8": lambda text: len(text.encode("utf-8", "surrogatepass")),
    "utf-16": lambda text: len(text.encode("utf-16-le", "surrogatepass")) // 2,
    "utf-32": len,
}
ENCODINGS = tuple(_COUNTS)


class TextLines:
    """The lines of one text. Lines end as the protocol says, with LF, CR LF or CR. `encoding`: one of `ENCODINGS`."""

    def __init__(self, text: str, encoding: str = "utf-16") -> None:
        self.text = text
        self._count = _COUNTS[encoding]
        self._starts = [0, *(found.end() for found in _BREAK.finditer(text))]

    def find_place(self, offset: int) -> tuple[int, int]:
        """Line and column of a character offset."""
        line = bisect.bisect_right(self._starts, min(offset, len(self.text))) - 1
        return line, self._count(self.text[self._starts[line] : offset])

    def find_offset(self, line: int, column: int) -> int:
        """The character offset of a line and column; the nearest one where the text has no such place."""
        if line >= len(self._starts):
            return len(self.text)
        start = self._starts[line]
        stop = start + len(self.read_line(line))
        offset = units = 0
        for offset in range(start, stop):
            if units >= column:
                return offset
            units += self._count(self.text[offset])
        return stop

    def read_line(self, line: int) -> str:
        """A line without its break; nothing where there is no such line."""
        if line >= len(self._starts):
            return ""
        stop = self._starts[line + 1] if line + 1 < len(self._starts) else len(self.text)
        return self.text[self._starts[line] : stop].rstrip("\r\n")

    def start_of(self, line: int) -> int:
        """The offset at which a line, from 0, starts; the text's end where there is no such line."""
        return self._starts[line] if line < len(self._starts) else len(self.text)
