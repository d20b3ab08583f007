"""Rules and packs in memory for the tests of the engine."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Sequence
from importlib.metadata import Distribution, EntryPoint
from types import ModuleType
from typing import Any

import pytest

from rigmint.lint.engine import RuleRun, run_rules
from rigmint.lint.finding import Finding, Measured, Unknown
from rigmint.lint.packs import ENTRY_POINTS, PACK_API, Pack, hookimpl
from rigmint.lint.rule import Check, Parameter, Rule
from rigmint.rig.house import House
from rigmint.rig.rig import Rig
from rigmint.words import Grade


def find_nothing(_case: object) -> Iterable[Finding | Unknown]:
    """A check that finds nothing."""
    return ()


def make_rule(
    code: str,
    check: Check = find_nothing,
    grades: Sequence[Grade] = (Grade.BURN, Grade.DEAD, Grade.THIN),
    parameters: dict[str, Parameter] | None = None,
    **changes: Any,
) -> Rule:
    """A whole rule; a caution is there, since any grade may be."""
    texts = {"title": "A", "looks_for": "B", "why": "C", "put_right": "D", "source": "common practice", "caution": "E"}
    return Rule(code=code, grades=tuple(grades), check=check, parameters=parameters or {}, **(texts | changes))


def make_finding(
    code: str, at: str, cause: str = "", grade: Grade = Grade.DEAD, measured: Measured | None = None, **changes: Any
) -> Finding:
    """A finding whose cause is where it shows, unless stated."""
    return Finding(code, grade, f"{code} at {at}", at, cause or at, measured=measured, **changes)


def make_pack(*rules: Rule, name: str = "house") -> list[tuple[Pack, Rule]]:
    """Rules with the pack that holds them."""
    pack = Pack(name, "1.0", (name,), rules)
    return [(pack, rule) for rule in rules]


def run(rig: Rig, *rules: Rule, house: House | None = None, setups: Sequence[str] | None = None) -> RuleRun:
    """Run rules of one pack."""
    return run_rules(rig, house or House(), make_pack(*rules), setups)


class FakeDistribution(Distribution):
    """A distribution of a name and a version, without files."""

    def __init__(self, name: str, version: str) -> None:
        self._text = f"Metadata-Version: 2.1\nName: {name}\nVersion: {version}\n"

    def read_text(self, filename: str) -> str | None:
        return self._text if filename == "METADATA" else None

    def locate_file(self, path: Any) -> Any:
        raise FileNotFoundError(path)


def offer(
    monkeypatch: pytest.MonkeyPatch,
    name: str,
    module: object,
    *,
    distribution: str = "house-pack",
    version: str = "1.2",
) -> EntryPoint:
    """An entry point that loads `module`, offered by a distribution."""
    target = f"rigmint_test_{name.replace('-', '_')}"
    monkeypatch.setitem(sys.modules, target, module)
    point = EntryPoint(name, target, ENTRY_POINTS)
    vars(point)["dist"] = FakeDistribution(distribution, version)
    return point


def make_module(
    rules: Iterable[object] | Callable[[], Iterable[object]], api: int | None = PACK_API, hook: str = "rigmint_rules"
) -> ModuleType:
    """The module of a pack. `rules` may be what its hook calls."""
    module = ModuleType("pack")

    @hookimpl
    def give_rules() -> Iterable[object]:
        return rules() if callable(rules) else rules

    vars(module)[hook] = give_rules
    if api is not None:
        vars(module)["PACK_API"] = api
    return module
