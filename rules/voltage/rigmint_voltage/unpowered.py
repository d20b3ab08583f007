"""`voltage:unpowered`: a device that nothing feeds."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from rigmint import Case, DeadEnd, Feed, Finding, Fix, Grade, RailFeed, Rule, SetSetting, say_list, setting_place


def check(case: Case) -> Iterator[Finding]:
    """One finding for each place at which supply stops."""
    ends: dict[DeadEnd, list[RailFeed]] = defaultdict(list)
    for rail in case.powering.rails:
        if rail.feed is Feed.NO_PLUS:
            ends[case.dead_end(rail)].append(rail)
        elif rail.feed is Feed.SWITCHED_OFF and rail.switch is not None:
            place = setting_place(*rail.switch)
            ends[DeadEnd(rail.load.item, place)].append(rail)
    for end, rails in ends.items():
        yield _report(case, end, sorted({rail.load.item for rail in rails}), rails[0])


def _report(case: Case, end: DeadEnd, items: list[str], rail: RailFeed) -> Finding:
    has = "has" if len(items) == 1 else "have"
    return Finding(
        code="voltage:unpowered",
        grade=Grade.DEAD,
        says=f"{say_list(items)} {has} no power: {_say_reason(case, end, rail)}.",
        at=end.at,
        cause=end.cause,
        also=tuple(item for item in items if item != end.at.partition(".")[0]),
        fixes=(_find_fix(case, end, rail),),
    )


def _say_reason(case: Case, end: DeadEnd, rail: RailFeed) -> str:
    if rail.switch is not None:
        item, setting = rail.switch
        return f"{item}.{setting} is {case.setup.setting(item, setting)}"
    if end.is_off:
        return f"{end.cause} is off"
    if end.cause in case.rig.leads:
        return f"{end.cause} brings no plus to {end.at}"
    return f"nothing is plugged into {end.at}" if "." in end.at else "it has no power input that anything could feed"


def _find_fix(case: Case, end: DeadEnd, rail: RailFeed) -> Fix:
    if rail.switch is not None:
        item, setting = rail.switch
        bridges = [bridge for bridge in case.rig.items[item].part.bridges if setting in bridge.when]
        value = bridges[0].when[setting][0]
        change = SetSetting(item, setting, value, case.setup.name)
        return Fix(f"Set {item}.{setting} to {value}.", (change,))
    if end.cause in case.rig.leads:
        return Fix(f"Swap {end.cause} for a lead that carries power, or plug it into a port that gives it.")
    return Fix(f"Plug a feed of the right voltage into {end.at}.")


RULE = Rule(
    code="voltage:unpowered",
    grades=(Grade.DEAD,),
    title="A device has no power",
    looks_for="A device that draws power and is joined to no live source, with the switches as they are set.",
    why="It will not switch on. The lead that is missing on paper is missing in the case.",
    put_right="Plug a lead from a free output of the right voltage, or set the switch on the way.",
    source="common practice",
    check=check,
)
