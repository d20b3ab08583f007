"""What is in the kit and how it is joined: items, leads, docks, links and fitted motors that come, go or change."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from rigmint.rig.rig import Dock, Fitting, Item, Lead, Link, Rig

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class KitChange:
    """`kind` is item, lead, dock, link, motor or spare; before and after in words, None where it is not there."""

    kind: str
    name: str
    before: str | None
    after: str | None


def compare_kits(old: Rig, new: Rig) -> tuple[KitChange, ...]:
    """Every change, items first."""
    tables = (
        ("item", _describe_all(old.items, _describe_item), _describe_all(new.items, _describe_item)),
        ("lead", _describe_all(old.leads, _describe_lead), _describe_all(new.leads, _describe_lead)),
        ("dock", _describe_docks(old.docks), _describe_docks(new.docks)),
        ("link", _describe_all(old.links, _describe_link), _describe_all(new.links, _describe_link)),
        ("motor", _describe_all(old.fitted, _describe_fitting), _describe_all(new.fitted, _describe_fitting)),
        ("spare", _count_spares(old), _count_spares(new)),
    )
    changes = [change for kind, before, after in tables for change in _compare(kind, before, after)]
    told = {change.name for change in changes}
    rewritten = [name for name, item in new.items.items() if name not in told and _is_rewritten(old.items, item)]
    return (*changes, *(_tell_rewritten(new.items[name]) for name in rewritten))


def _compare(kind: str, before: Mapping[str, str], after: Mapping[str, str]) -> Iterable[KitChange]:
    for name in dict.fromkeys((*before, *after)):
        if before.get(name) != after.get(name):
            yield KitChange(kind, name, before.get(name), after.get(name))


def _is_rewritten(old: Mapping[str, Item], item: Item) -> bool:
    """Whether an item's part has the id that it had, and other figures."""
    return item.name in old and old[item.name].part != item.part


def _tell_rewritten(item: Item) -> KitChange:
    return KitChange("item", item.name, f"{item.part.id} as it was", f"{item.part.id} with other figures")


def _describe_all(table: Mapping[str, T], describe: Callable[[T], str]) -> dict[str, str]:
    return {name: describe(entry) for name, entry in table.items()}


def _describe_item(item: Item) -> str:
    words = [item.part.id]
    if item.firmware is not None:
        words.append(f"firmware {item.firmware}")
    if item.asset is not None:
        words.append(f"asset {item.asset}")
    if item.rides != item.part.rides:
        words.append(f"rides {item.rides}")
    return ", ".join([*words, *_name_setups(item.setups)])


def _describe_lead(lead: Lead) -> str:
    ends = [f"{end} {ref.place}" for end, ref in sorted(lead.plugged.items())]
    if set(lead.body.ends) == {"a", "b"} and len(ends) == len(lead.body.ends):
        ends = [f"{lead.plugged['a'].place} > {lead.plugged['b'].place}"]
    what = lead.part.id if lead.part is not None else "assumed straight" if lead.body.straight else "described here"
    length = f"{round(lead.length * 100):g} cm"
    return ", ".join([*ends, what, length, *_name_setups(lead.setups)])


def _describe_docks(docks: Iterable[Dock]) -> dict[str, str]:
    """A dock has no name of its own: it is known by its two places."""
    shown = {}
    for dock in docks:
        first, second = sorted((dock.first.place, dock.second.place))
        shown[f"{first} > {second}"] = ", ".join(["docked", *_name_setups(dock.setups)])
    return shown


def _describe_link(link: Link) -> str:
    words = [", ".join(ref.place for ref in link.radios)]
    if link.distance is not None:
        words.append(f"{link.distance:g} m")
    if link.channel is not None:
        words.append(f"radio channel {link.channel}")
    return ", ".join([*words, *_name_setups(link.setups)])


def _describe_fitting(fitting: Fitting) -> str:
    words = [f"on {fitting.lens}.{fitting.ring}"]
    words += [f"direction {fitting.direction}"] if fitting.direction is not None else []
    words += [f"marked {fitting.marked}"] if fitting.marked is not None else []
    return ", ".join(words)


def _count_spares(rig: Rig) -> dict[str, str]:
    counts: Counter[str] = Counter()
    for spare in rig.spares:
        counts[spare.part.id] += spare.count
    return {name: str(number) for name, number in counts.items()}


def _name_setups(setups: tuple[str, ...] | None) -> list[str]:
    return [f"only in {' '.join(setups)}"] if setups is not None else []
