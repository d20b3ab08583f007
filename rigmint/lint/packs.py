"""Packs of rules: found by entry point, registered through pluggy, checked before a rule of theirs runs.

Hooks register, the core runs: a hook gives back rules, and the engine sorts, runs and isolates them.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from importlib.metadata import EntryPoint, entry_points
from types import ModuleType

import pluggy

from rigmint.library.faults import Fault
from rigmint.lint.rule import Rule

PACK_API = 1
"""Version of the contract between core and packs. A pack states the one that it was built for."""
ENTRY_POINTS = "rigmint.packs"
STANDARD_PACKS = ("current", "follow", "owner", "polarity", "prep", "signals", "voltage")

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


def load_packs(points: Iterable[EntryPoint] | None = None) -> PackSet:
    """Load every pack that is installed. One that cannot be loaded is reported, and the others still are."""
    by_name: dict[str, list[EntryPoint]] = defaultdict(list)
    for point in entry_points(group=ENTRY_POINTS) if points is None else points:
        by_name[point.name].append(point)
    manager = pluggy.PluginManager("rigmint")
    manager.add_hookspecs(PackHooks)
    packs: list[Pack] = []
    faults: list[Fault] = []
    for name, offered in sorted(by_name.items()):
        pack = _load_pack(name, offered, manager, faults)
        if pack is not None:
            packs.append(pack)
    return PackSet(_refuse_shared_codes(packs, faults), tuple(faults))


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


def _load_pack(name: str, offered: list[EntryPoint], manager: pluggy.PluginManager, faults: list[Fault]) -> Pack | None:
    point = offered[0]
    distributions = tuple(sorted({_distribution(one) for one in offered}))
    version = next((one.dist.version for one in offered if one.dist is not None), "unknown")
    shown = f"pack {name} {version}"
    try:
        module = point.load()
    except (Exception, SystemExit) as error:
        says = f"{shown} cannot be imported: {type(error).__name__}: {error}"
        faults.append(_fault(name, "pack:broken", says))
        return None
    api = getattr(module, "PACK_API", None) if isinstance(module, ModuleType) else None
    if api != PACK_API:
        built = f"for version {api}" if api is not None else "without stating one (PACK_API)"
        says = f"{shown} was built {built} of the pack contract; this rigmint has version {PACK_API}"
        faults.append(_fault(name, "pack:refused", says))
        return None
    try:
        manager.register(module, name)
        manager.check_pending()
        rules = _collect_rules(manager, module)
    except (Exception, SystemExit) as error:
        says = f"{shown} does not register: {type(error).__name__}: {error}"
        faults.append(_fault(name, "pack:broken", says))
        if manager.is_registered(module):
            manager.unregister(module)
        return None
    return Pack(name, version, distributions, rules)


def _collect_rules(manager: pluggy.PluginManager, module: object) -> tuple[Rule, ...]:
    others = [plugin for plugin in manager.get_plugins() if plugin is not module]
    gathered = manager.subset_hook_caller("rigmint_rules", others)()
    rules = [rule for found in gathered for rule in found]
    wrong = [rule for rule in rules if not isinstance(rule, Rule)]
    if wrong:
        msg = f"`rigmint_rules` gave {type(wrong[0]).__name__} where a Rule is due"
        raise TypeError(msg)
    if not rules:
        msg = "it has no rules"
        raise ValueError(msg)
    return tuple(sorted(rules, key=lambda rule: rule.code))


def _refuse_shared_codes(packs: list[Pack], faults: list[Fault]) -> tuple[Pack, ...]:
    """A code that two packs declare is taken from neither: both are named."""
    owners: dict[str, list[str]] = defaultdict(list)
    for pack in packs:
        for rule in pack.rules:
            owners[rule.code].append(pack.name)
    shared = {code: names for code, names in owners.items() if len(names) > 1}
    for code, names in sorted(shared.items()):
        says = f"the code `{code}` is declared twice, by {' and '.join(sorted(names))}: none of them is run"
        faults.append(_fault(names[0], "pack:refused", says))
    return tuple(
        Pack(
            pack.name,
            pack.version,
            pack.distributions,
            tuple(rule for rule in pack.rules if rule.code not in shared),
        )
        for pack in packs
    )


def _distribution(point: EntryPoint) -> str:
    return point.dist.name if point.dist is not None else "unknown"


def _fault(name: str, code: str, says: str) -> Fault:
    return Fault(name, 1, 1, code, says)
