"""What `check` is asked, as a key of the cache. Imports next to nothing: the cache is looked into before anything else.

Only the plainest forms of the command line are read here; whatever else is said goes to the real parser.
"""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Collection, Mapping, Sequence

from rigmint.commands.surroundings import look_at_output
from rigmint.lint.cache_store import make_key

FORMS = ("text", "json", "sarif", "junit")
_VALUES = ("--as", "--setup", "--library", "--today")
_FLAGS = ("--plain", "--strict", "--house-checks", "--no-house-checks")


class Request:
    """One run of `check` whose output goes to standard output."""

    __slots__ = ("_flags", "_paths", "_values", "today")

    def __init__(self, paths: Sequence[str], values: Mapping[str, str], flags: Collection[str]) -> None:
        self._paths = tuple(paths)
        self._values = dict(values)
        self._flags = sorted(set(flags))
        self.today = values.get("--today") or time.strftime("%Y-%m-%d")
        """The day that counts."""

    def make_key(self) -> str:
        """The key of its run: all that decides what is printed and is read from no file. The day counts where it is
        printed; what was signed for until a day stands beside the entry."""
        asked = (self._paths or (".",), self._values, [flag for flag in self._flags if flag != "--plain"])
        is_text = self._values.get("--as", FORMS[0]) == FORMS[0]
        shown = look_at_output(plain="--plain" in self._flags) if is_text else self.today
        return make_key("run", asked, shown, os.getcwd(), sys.version, sys.path)


def read_request(arguments: Sequence[str]) -> Request | None:
    """The request on a command line; None where it takes the real parser to say."""
    if not arguments or arguments[0] != "check":
        return None
    paths: list[str] = []
    values: dict[str, str] = {}
    flags: list[str] = []
    rest = iter(arguments[1:])
    for word in rest:
        name, is_joined, value = word.partition("=")
        if not word.startswith("-"):
            paths.append(word)
        elif word in _FLAGS:
            flags.append(word)
        elif name in _VALUES and name not in values:
            values[name] = value if is_joined else next(rest, "")
        else:
            return None
    return Request(paths, values, flags) if _is_plain(paths, values, flags) else None


def _is_plain(paths: Sequence[str], values: Mapping[str, str], flags: Collection[str]) -> bool:
    """Whether nothing is odd about it: what is empty, said both ways or no day is the real parser's to refuse."""
    return (
        "" not in paths
        and "" not in values.values()
        and not {"--house-checks", "--no-house-checks"} <= set(flags)
        and values.get("--as", FORMS[0]) in FORMS
        and _is_day(values.get("--today", "2000-01-01"))
    )


def _is_day(text: str) -> bool:
    digits = text[:4] + text[5:7] + text[8:]
    return len(text) == 10 and text[4] == text[7] == "-" and digits.isascii() and digits.isdigit()
