"""An earlier log of `check`, read from SARIF: what was known then, so that only what is new fails a run."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import unquote_to_bytes

from rigmint.lint.fingerprint import FINGERPRINT
from rigmint.words import Grade

MAX_BYTES = 256 * 1024 * 1024
_TOOL = "rigmint"
_VERSION = "2.1.0"
_ABSENT = "absent"


class BadBaseline(ValueError):
    """A file that is no log of rigmint's."""


@dataclass(frozen=True, slots=True)
class KnownFinding:
    """A finding of the earlier run."""

    fingerprint: str
    code: str
    grade: Grade
    says: str
    file: str
    """Relative to the working folder of then, with `/`."""
    home: str
    """Its path from its library's folder, as `find_home` gives it."""
    line: int | None
    column: int
    at: str
    setups: tuple[str, ...]
    is_open: bool
    """Nobody had signed for it."""


@dataclass(frozen=True, slots=True)
class Baseline:
    """The earlier run. `name`: the file as given."""

    name: str
    findings: tuple[KnownFinding, ...]


def read_baseline(path: Path) -> Baseline:
    """The findings of a log that `check --as sarif` wrote. Raises BadBaseline, in words, for any other file."""
    log = _load(path)
    if not isinstance(log, dict) or not isinstance(log.get("runs"), list):
        msg = f"{path} is no SARIF log: it has no `runs`"
        raise BadBaseline(msg)
    if log.get("version") != _VERSION:
        msg = f"{path} is SARIF of version {log.get('version')!r:.40}; {_VERSION} is read"
        raise BadBaseline(msg)
    names = [_name_tool(run) for run in log["runs"]]
    if _TOOL not in names:
        found = ", ".join(sorted({f"`{name:.40}`" for name in names})) or "no tool at all"
        msg = f"{path} is a log of {found}, not one that `rigmint check --as sarif` wrote"
        raise BadBaseline(msg)
    own = [run for run, name in zip(log["runs"], names, strict=True) if name == _TOOL]
    try:
        findings = tuple(one for run in own for one in _read_run(run))
    except (KeyError, TypeError, ValueError, IndexError, AttributeError) as error:
        msg = f"{path} is not as `rigmint check --as sarif` writes it ({type(error).__name__}: {error}): write it anew"
        raise BadBaseline(msg) from error
    return Baseline(str(path), findings)


def _load(path: Path) -> Any:
    try:
        with path.open("rb") as stream:
            data = stream.read(MAX_BYTES + 1)
    except OSError as error:
        msg = f"{path} cannot be read: {(error.strerror or type(error).__name__).lower()}"
        raise BadBaseline(msg) from error
    if len(data) > MAX_BYTES:
        msg = f"{path} is larger than {MAX_BYTES // 1024 // 1024} MiB, the most that is read"
        raise BadBaseline(msg)
    try:
        return json.loads(data.decode("utf-8-sig"))
    except (ValueError, RecursionError) as error:
        msg = f"{path} is no SARIF log: it is not JSON"
        raise BadBaseline(msg) from error


def _name_tool(run: Any) -> str:
    try:
        return str(run["tool"]["driver"]["name"])
    except (KeyError, TypeError):
        return "no tool"


def _read_run(run: Any) -> Iterator[KnownFinding]:
    for result in run.get("results") or ():
        if result.get("baselineState") != _ABSENT:
            yield _read_result(result)


def _read_result(result: Any) -> KnownFinding:
    location = result["locations"][0]
    physical = location["physicalLocation"]
    region = physical.get("region") or {}
    properties = result["properties"]
    suppressions = result.get("suppressions") or ()
    return KnownFinding(
        fingerprint=str(result["partialFingerprints"][FINGERPRINT]),
        code=str(result["ruleId"]),
        grade=Grade(properties["grade"]),
        says=str(result["message"]["text"]),
        file=_normalise(str(physical["artifactLocation"]["uri"])),
        home=_normalise(str(properties["home"])),
        line=int(region["startLine"]) if "startLine" in region else None,
        column=int(region.get("startColumn", 1)),
        at=str(properties["at"]),
        setups=tuple(str(setup) for setup in properties["setups"]),
        is_open=not suppressions or any(one.get("status", "accepted") != "accepted" for one in suppressions),
    )


def _normalise(uri: str) -> str:
    """The path of a relative URI, as reports show it."""
    return os.path.normpath(os.fsdecode(unquote_to_bytes(uri))).replace(os.sep, "/")
