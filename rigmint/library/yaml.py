"""YAML 1.2 core from the event stream, with positions and bounds checked while reading.

Composing nodes with the C parser crashes the process on deep nesting, and reading all of a hostile file takes
seconds; so a small builder of ours consumes events and stops at the first bound that is passed.
"""

from __future__ import annotations

import os
import re
import stat
from collections.abc import Iterator
from pathlib import Path as FilePath
from typing import Any

from rigmint.library.document import Document, Marks, Path, Scalar, Span, Value
from rigmint.library.faults import FaultList
from rigmint.rig.place import Position

MAX_BYTES = 2 * 1024 * 1024
MAX_NODES = 50_000
MAX_DEPTH = 50

_INTEGER = re.compile(r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+")
_FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?|[-+]?\.(inf|Inf|INF)|\.(nan|NaN|NAN)")
_NULLS = frozenset({"", "~", "null", "Null", "NULL"})
_BOOLS = {"true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False}
_START = Position(1, 1)
_TAG_PREFIX = "tag:yaml.org,2002:"
_TAGS = frozenset({f"{_TAG_PREFIX}str", f"{_TAG_PREFIX}map", f"{_TAG_PREFIX}seq"})
_IN_KEY = "a key"


class _Stop(Exception):
    """A bound was passed: nothing more is read."""


def read_text(path: FilePath, name: str, faults: FaultList) -> str | None:
    """The text of a regular file within the size bound; None after recording why not."""
    try:
        with open(path, "rb", opener=_open_at_once) as stream:
            if not stat.S_ISREG(os.fstat(stream.fileno()).st_mode):
                faults.add(name, _START, "file:unreadable", "this is no regular file")
                return None
            data = stream.read(MAX_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = (error.strerror if isinstance(error, OSError) else None) or str(error)
        faults.add(name, _START, "file:unreadable", f"the file cannot be read: {reason.lower()}")
        return None
    if len(data) > MAX_BYTES:
        faults.add(name, _START, "file:too-big", "the file is larger than 2 MiB, the most that is read")
        return None
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        faults.add(name, Position(line, 1), "file:not-yaml", "the file is not UTF-8 text")
        return None
    return text


def _open_at_once(path: str, flags: int) -> int:
    """Without blocking, since opening a pipe that nobody writes to would wait for ever."""
    return os.open(path, flags | os.O_NONBLOCK)


def parse_yaml(text: str, name: str, faults: FaultList) -> Document | None:
    """The document in `text`; None after recording what is wrong, if it cannot be used at all."""
    for is_fast in (True, False) if uses_fast_parser() else (False,):
        # The C parser refuses some of YAML 1.2, such as a colon inside a word in a flow mapping: the pure one decides.
        found = FaultList()
        try:
            document = _Builder(name, text, found).build(_events(text, is_fast=is_fast))
        except _Stop:
            document = None
        except Exception as error:
            if not _is_yaml_error(error):
                raise
            if is_fast:
                continue
            found.add(name, _problem_position(error), "file:not-yaml", _problem_words(error))
            document = None
        if document is None and not found.found:
            found.add(name, _START, "file:wrong-kind", "the file is empty")
        faults.found += found.found
        return document
    return None


def resolve_scalar(text: str) -> Scalar:
    """A plain scalar by the YAML 1.2 core schema: `on`, `yes` and `12:30` are text."""
    if text in _NULLS:
        return None
    if text in _BOOLS:
        return _BOOLS[text]
    if not (text[0].isdigit() or text[0] in "-+."):
        return text
    if _INTEGER.fullmatch(text) and len(text) < 40:
        return int(text, 0) if text[:2] in ("0o", "0x") else int(text)
    if _FLOAT.fullmatch(text):
        return float(text.replace(".", "") if text[-1] in "fFnN" else text)
    return text


def uses_fast_parser() -> bool:
    """Whether the C parser is installed; without it the pure one serves, an order of magnitude slower."""
    try:
        import _ruamel_yaml  # noqa: F401
    except ImportError:
        return False
    return True


def _events(text: str, *, is_fast: bool) -> Iterator[Any]:
    from ruamel.yaml import YAML

    yaml = YAML(typ="safe", pure=not is_fast)
    return iter(yaml.parse(text))


def _is_yaml_error(error: Exception) -> bool:
    from ruamel.yaml.error import YAMLError

    return isinstance(error, YAMLError)


def _problem_position(error: Exception) -> Position:
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    if mark is None:
        return _START
    return Position(mark.line + 1, mark.column + 1)


_IN_WORDS = {
    "mapping values are not allowed": "a colon too many, or a line that is not indented as its neighbours",
    "found character '\\t'": "a tab where spaces are due",
    "could not find expected ':'": "a key without its colon",
    "did not find expected key": "a line that is not indented as its neighbours, or a key without its colon",
    "expected <block end>": "a line that is not indented as its neighbours",
    "expected ',' or '}'": "a `{` without its `}`, or a comma missing in it",
    "expected ',' or ']'": "a `[` without its `]`, or a comma missing in it",
    "unexpected end of stream": "a quotation mark, `{` or `[` that is never closed",
    "while scanning a quoted scalar": "a quotation mark that is never closed",
    "special characters are not allowed": "a character that no text has: this may not be a text file",
    "control characters are not allowed": "a character that no text has: this may not be a text file",
}
"""The parser's words, by a part of them, and what a technician would say."""


def _problem_words(error: Exception) -> str:
    problem = getattr(error, "problem", None) or getattr(error, "reason", None)
    context = getattr(error, "context", None)
    parsers = ", ".join(part for part in (problem, context) if part)
    said = next((words for part, words in _IN_WORDS.items() if part in parsers), parsers)
    return f"this is not YAML: {said}" if said else "this is not YAML"


def _position(mark: Any) -> Position:
    return Position(mark.line + 1, mark.column + 1)


class _Builder:
    """Builds plain values from events; one instance a file."""

    def __init__(self, name: str, text: str, faults: FaultList) -> None:
        self._name = name
        self._text = text
        self._faults = faults
        self._keys: dict[Path, Span] = {}
        self._values: dict[Path, Span] = {}
        self._raw: dict[Path, str] = {}
        self._nodes = 0
        self._events: Iterator[Any] = iter(())

    def build(self, events: Iterator[Any]) -> Document | None:
        self._events = events
        document: Document | None = None
        for event in events:
            kind = type(event).__name__
            if kind == "DocumentStartEvent":
                if document is not None:
                    self._fault(event, "file:not-yaml", "a file holds one document: take out what follows `---`")
                    break
                tree = self._node(next(events), (), 0)
                document = Document(self._name, tree, Marks(self._keys, self._values, self._raw), text=self._text)
        return document

    def _fault(self, event: Any, code: str, says: str) -> None:
        self._faults.add(self._name, _position(event.start_mark), code, says)

    def _node(self, event: Any, path: Path, depth: int) -> Value:
        self._count(event, depth)
        kind = type(event).__name__
        if kind == "AliasEvent":
            self._fault(event, "file:anchor", f"`*{event.anchor}` is an alias: write it out, or use `like:`")
            self._values[path] = self._span(event, event)
            return None
        self._refuse_extras(event)
        if kind == "ScalarEvent":
            return self._scalar(event, path)
        if kind == "MappingStartEvent":
            return self._mapping(event, path, depth)
        return self._sequence(event, path, depth)

    def _count(self, event: Any, depth: int) -> None:
        self._nodes += 1
        if self._nodes > MAX_NODES:
            self._fault(event, "file:too-many", f"more than {MAX_NODES} nodes, the most that is read")
            raise _Stop
        if depth > MAX_DEPTH:
            self._fault(event, "file:too-deep", f"nested more than {MAX_DEPTH} deep, the most that is read")
            raise _Stop

    def _refuse_extras(self, event: Any) -> None:
        if event.anchor is not None:
            says = f"`&{event.anchor}` is an anchor: write it out, or use `like:`"
            self._fault(event, "file:anchor", says)
        if event.tag is not None and str(event.tag) not in _TAGS:
            shown = str(event.tag).replace(_TAG_PREFIX, "!!")
            self._fault(event, "file:not-yaml", f"`{shown}` is a tag, which is not read here: take it out")

    def _scalar(self, event: Any, path: Path) -> Scalar:
        text = str(event.value)
        self._values[path] = self._span(event, event)
        if not event.implicit[0]:
            return text
        value = resolve_scalar(text)
        if not isinstance(value, str):
            self._raw[path] = text
        return value

    def _mapping(self, event: Any, path: Path, depth: int) -> dict[str, Value]:
        result: dict[str, Value] = {}
        for key_event in self._events:
            kind = type(key_event).__name__
            if kind == "MappingEndEvent":
                self._values[path] = self._span(event, key_event)
                return result
            key = self._key(key_event, kind, path, depth)
            here = (*path, key)
            if key in result:
                self._fault(key_event, "file:duplicate-key", f"`{key}` stands here twice")
                self._node(next(self._events), (*path, key, "again"), depth + 1)
                continue
            self._keys[here] = self._span(key_event, key_event)
            result[key] = self._node(next(self._events), here, depth + 1)
        msg = "a mapping always ends: the parser refuses one that does not"
        raise RuntimeError(msg)

    def _key(self, event: Any, kind: str, path: Path, depth: int) -> str:
        self._count(event, depth)
        if kind == "ScalarEvent":
            self._refuse_extras(event)
            return str(event.value)
        if path[:1] != (_IN_KEY,):  # of keys within keys, the outermost says it
            self._fault(event, "file:not-yaml", "a key must be one word or number")
        if kind != "AliasEvent":
            self._node(event, (_IN_KEY,), depth + 1)
        return f"a key at {event.start_mark.line}:{event.start_mark.column}"

    def _sequence(self, event: Any, path: Path, depth: int) -> list[Value]:
        result: list[Value] = []
        for item_event in self._events:
            if type(item_event).__name__ == "SequenceEndEvent":
                self._values[path] = self._span(event, item_event)
                return result
            result.append(self._node(item_event, (*path, len(result)), depth + 1))
        msg = "a sequence always ends: the parser refuses one that does not"
        raise RuntimeError(msg)

    @staticmethod
    def _span(start: Any, end: Any) -> Span:
        mark = start.start_mark
        return Span(mark.index, end.end_mark.index, mark.line + 1, mark.column + 1)
