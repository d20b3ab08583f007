"""Packs of rules: found by entry point, registered through pluggy, checked before a rule of theirs runs.

Hooks register, the core runs: a hook gives back rules, and the engine sorts, runs and isolates them.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace
from importlib.metadata import EntryPoint, entry_points
from types import ModuleType

import pluggy

from rigmint.library.faults import Fault
from rigmint.library.foreign import describe_error, keep_off_output
from rigmint.lint.core_codes import CORE_FAMILIES
from rigmint.lint.rule import Rule

PACK_API = 1
"""Version of the contract between core and packs. A pack states the one that it was built for."""
ENTRY_POINTS = "rigmint.packs"
STANDARD_PACKS = ("current", "follow", "mechanics", "owner", "polarity", "prep", "signals", "voltage")

hookspec = pluggy.HookspecMarker("rigmint")
hookimpl = pluggy.HookimplMarker("rigmint")


class PackHooks:
    """What a pack may implement."""

    @hookspec
    def rigmint_rules(self) -> Iterable[Rule]:
        """The rules of the pack."""
        raise NotImplementedError


@dataclass(frozen=True, slots=True)
class Pack:
    """An installed pack. `distributions`: those that offer it; the module is taken once."""

    name: str
    version: str
    distributions: tuple[str, ...]
    rules: tuple[Rule, ...]


@dataclass(frozen=True, slots=True)
class PackSet:
    """All packs, by name, and what was wrong with others."""

    packs: tuple[Pack, ...]
    faults: tuple[Fault, ...]

    @property
    def rules(self) -> tuple[tuple[Pack, Rule], ...]:
        """Every rule with its pack, by code."""
        pairs = [(pack, rule) for pack in self.packs for rule in pack.rules]
        return tuple(sorted(pairs, key=lambda pair: pair[1].code))


class PackRefused(Exception):
    """A pack that cannot be used: its code and what is wrong with it, in words that follow its name."""

    def __init__(self, code: str, says: str) -> None:
        super().__init__(says)
        self.code = code


def load_packs(points: Iterable[EntryPoint] | None = None) -> PackSet:
    """Load every pack that is installed. One that cannot be loaded is reported, and the others still are."""
    by_name: dict[str, list[EntryPoint]] = defaultdict(list)
    for point in entry_points(group=ENTRY_POINTS) if points is None else points:
        by_name[point.name].append(point)
    packs: list[Pack] = []
    faults: list[Fault] = []
    for name, offered in sorted(by_name.items()):
        version = next((one.dist.version for one in offered if one.dist is not None), "unknown")
        distributions = tuple(sorted({_distribution(one) for one in offered}))
        try:
            rules = gather_rules(name, _import_pack(offered))
        except PackRefused as error:
            faults.append(_fault(name, error.code, f"pack {name} {version} {error}"))
        else:
            packs.append(Pack(name, version, distributions, rules))
    return PackSet(refuse_shared_codes(packs, faults), tuple(faults))


def find_missing(packs: PackSet, needed: Iterable[str], left_out: Iterable[str]) -> tuple[Fault, ...]:
    """A fault for each standard or needed pack that is not installed and that the library does not do without."""
    present = {pack.name for pack in packs.packs} | {fault.file for fault in packs.faults}
    wanted = [name for name in (*STANDARD_PACKS, *needed) if name not in set(left_out)]
    return tuple(_fault(name, "pack:missing", _say_missing(name)) for name in sorted(set(wanted) - present))


def _say_missing(name: str) -> str:
    if name in STANDARD_PACKS:
        return (
            f"the standard pack `{name}` is not installed: install rigmint anew, which brings it, or"
            f" `pip install ./rules/{name}` from a checkout, or list it under `packs: without:` in rigmint.yaml"
        )
    return f"the library needs the pack `{name}`, which is not installed"


def _import_pack(offered: list[EntryPoint]) -> object:
    point, *others = offered
    if any(other.value != point.value for other in others):
        listed = " and ".join(sorted(f"{one.value} of {_distribution(one)}" for one in offered))
        raise PackRefused("pack:refused", f"is the name of several packs, {listed}: none of them is run")
    try:
        with keep_off_output():
            module: object = point.load()
    except KeyboardInterrupt:
        raise
    except BaseException as error:
        raise PackRefused("pack:broken", f"cannot be imported: {describe_error(error)}") from error
    return module


def gather_rules(name: str, module: object) -> tuple[Rule, ...]:
    """The rules that a module gives by the hook, sorted by code. Raises PackRefused where it was built for another
    contract, or where what it gives is no whole set of rules."""
    api = getattr(module, "PACK_API", None) if isinstance(module, ModuleType) else None
    if api != PACK_API:
        built = f"for version {api}" if api is not None else "without stating one (PACK_API)"
        says = f"was built {built} of the pack contract; this rigmint has version {PACK_API}"
        raise PackRefused("pack:refused", says)
    manager = pluggy.PluginManager("rigmint")
    manager.add_hookspecs(PackHooks)
    try:
        with keep_off_output():
            manager.register(module, name)
            manager.check_pending()
            return check_rules(rule for found in manager.hook.rigmint_rules() for rule in found)
    except KeyboardInterrupt:
        raise
    except BaseException as error:
        raise PackRefused("pack:broken", f"does not register: {describe_error(error)}") from error


def check_rules(rules: Iterable[object]) -> tuple[Rule, ...]:
    """The rules by code. Raises TypeError or ValueError where one is no rule or in a family of the core, or where there
    is none."""
    found = []
    for rule in rules:
        if not isinstance(rule, Rule):
            msg = f"`rigmint_rules` gave {type(rule).__name__} where a Rule is due"
            raise TypeError(msg)
        if rule.family in CORE_FAMILIES:
            msg = f"`{rule.code}`: the family `{rule.family}` is the core's own"
            raise ValueError(msg)
        found.append(rule)
    if not found:
        msg = "it has no rules"
        raise ValueError(msg)
    return tuple(sorted(found, key=lambda rule: rule.code))


def refuse_shared_codes(packs: Iterable[Pack], faults: list[Fault]) -> tuple[Pack, ...]:
    """The packs without the rules whose code is declared twice: neither is taken, and both are named."""
    packs = tuple(packs)
    owners: dict[str, list[str]] = defaultdict(list)
    for pack in packs:
        for rule in pack.rules:
            owners[rule.code].append(pack.name)
    shared = {code: names for code, names in owners.items() if len(names) > 1}
    for code, names in sorted(shared.items()):
        says = f"the code `{code}` is declared twice, by {' and '.join(sorted(names))}: none of them is run"
        faults.append(_fault(names[0], "pack:refused", says))
    return tuple(leave_out(pack, shared) for pack in packs)


def leave_out(pack: Pack, codes: Iterable[str]) -> Pack:
    """The pack without the rules of these codes."""
    out = set(codes)
    return replace(pack, rules=tuple(rule for rule in pack.rules if rule.code not in out))


def _distribution(point: EntryPoint) -> str:
    return point.dist.name if point.dist is not None else "unknown"


def _fault(name: str, code: str, says: str) -> Fault:
    return Fault(name, 1, 1, code, says)
