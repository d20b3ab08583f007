"""What stands in the way of a flow, put down to what a technician would change."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from rigmint import Case, Fix, JoinLink, PortRef, SwitchOn
from rigmint_signals.setting_fixes import fix_setting


@dataclass(frozen=True, slots=True)
class Obstacle:
    """`says` continues a sentence; `cause` is a lead, a link, a setting or an item."""

    says: str
    cause: str
    path: tuple[str, ...]
    fixes: tuple[Fix, ...]


def find_obstacle(case: Case, flow: str, item: str, goals: Collection[str]) -> Obstacle:
    """The first thing in the way of a flow to any of the places `goals` of an item."""
    found = case.find_flow_stop(flow, [(item, goal) for goal in goals])
    if found is None:
        if not case.flow_makers(flow):
            fix = Fix(f"Bring what makes {flow} for {item}.")
            return Obstacle(f"nothing in the rig makes {flow}", item, (), (fix,))
        says = f"no lead or link leads there from what makes {flow}"
        return Obstacle(says, item, (), (Fix(f"Bring {flow} to {item} by a lead or a link."),))
    stop = found.stop
    cause = stop.by
    if cause not in case.rig.leads and ".set." not in cause and not cause.startswith("link:"):
        cause = cause.partition(".")[0].partition(":")[0]
    fixes = tuple(fix_setting(case, *found) for found in _find_settings(case, flow, item, goals, stop.by))
    return Obstacle(stop.says, cause, (found.maker, stop.by), fixes or (_find_fix(case, flow, stop.by, stop.says),))


def _find_fix(case: Case, flow: str, by: str, says: str) -> Fix:
    """What to do about a lead, an item that is off, a radio that is in no link, or a port that nothing is in."""
    if by in case.rig.leads:
        return Fix(f"Swap {by} for a lead that carries {flow}.")
    item, _, end = by.partition(".")
    if item in case.setup.off:
        return Fix(f"Leave {item} on in this setup.", (SwitchOn(item),))
    if item in case.rig.items and end in case.rig.items[item].part.radios:
        return Fix(f"Pair {item} under `links:`.", _join_link(case, PortRef(item, end)))
    if item in case.rig.items and end in case.rig.items[item].part.ports and not _is_plugged(case, PortRef(item, end)):
        return Fix(f"Plug a lead that carries {flow} into {by}.")
    return Fix(f"Clear what is in the way: {says}.")


def _join_link(case: Case, ref: PortRef) -> tuple[JoinLink, ...]:
    """Into the only link that is there whose hub speaks what the radio speaks."""
    names = [name for name in sorted(case.setup.links) if case.could_join(case.rig.links[name], ref)]
    return (JoinLink(names[0], ref.place),) if len(names) == 1 else ()


def _is_plugged(case: Case, ref: PortRef) -> bool:
    return any(ref in case.rig.leads[label].plugged.values() for label in case.setup.leads)


def _find_settings(case: Case, flow: str, item: str, goals: Collection[str], by: str) -> list[tuple[str, str, str]]:
    if ".set." not in by:
        return []
    owner, _, setting = by.partition(".set.")
    found = [fix for goal in goals for fix in case.find_flow_settings(flow, f"{item}.{goal}", [(owner, setting)])]
    return found[:1]
