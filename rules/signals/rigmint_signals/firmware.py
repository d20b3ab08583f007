"""`fit:firmware`: a device whose firmware is not what another needs."""

from __future__ import annotations

import operator
import re
from collections.abc import Callable, Iterator
from itertools import zip_longest

from rigmint import Case, Finding, Fix, Grade, Item, PartNeed, Rule, Unknown
from rigmint_signals.conditions import State, find_state
from rigmint_signals.setting_fixes import fix_setting

_NEEDED = re.compile(r"(>=|<=|==|>|<)\s*([0-9]+(?:\.[0-9]+)*)")
_DOTTED = re.compile(r"[0-9]+(?:\.[0-9]+)*")
_COMPARE: dict[str, Callable[[int, int], bool]] = {
    ">=": operator.ge,
    "<=": operator.le,
    "==": operator.eq,
    ">": operator.gt,
    "<": operator.lt,
}
_WORDS = {">=": "{} or later", "<=": "{} or earlier", "==": "{}", ">": "later than {}", "<": "earlier than {}"}


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each device with the wrong firmware."""
    for item in case.items:
        if item.name in case.setup.off:
            continue
        for need in item.part.needs:
            if not need.firmware:
                continue
            state = find_state(case, item, need.when)
            if state.holds or state.unknown is not None:
                yield from _judge(case, item, need, state)


def _judge(case: Case, item: Item, need: PartNeed, state: State) -> Iterator[Finding | Unknown]:
    joined = _list_joined(case, item)
    for kind, needed in need.firmware.items():
        for other in case.items:
            if other.part.kind != kind or other.name not in joined:
                continue
            fits = meets(other.firmware, needed)
            if fits is None:
                says = f"{item.name} needs {_say(needed)} on {other.name}, and {_say_unknown(other)}"
                yield Unknown("fit:firmware", "firmware", other.name, says)
            elif not fits and state.holds:
                yield _report(case, item, need, other, needed, state)
            elif not fits:
                says = f"whether {item.name} needs {_say(needed)} on {other.name} hangs on {state.unknown}"
                yield Unknown("fit:firmware", state.unknown or "", item.name, says)


def _say_unknown(item: Item) -> str:
    if item.firmware is None:
        return "nobody wrote down which it has"
    return f"`{item.firmware}` is no dotted number"


def meets(firmware: str | None, needed: str) -> bool | None:
    """Whether dotted numbers meet a comparison such as `>=2.0`; missing numbers count as 0. None: not known."""
    match = _NEEDED.fullmatch(needed.strip())
    if firmware is None or match is None or _DOTTED.fullmatch(firmware.strip()) is None:
        return None
    return _COMPARE[match[1]](_compare(firmware.strip(), match[2]), 0)


def _compare(one: str, other: str) -> int:
    pairs = zip_longest(map(int, one.split(".")), map(int, other.split(".")), fillvalue=0)
    return next((1 if ours > theirs else -1 for ours, theirs in pairs if ours != theirs), 0)


def _say(needed: str) -> str:
    match = _NEEDED.fullmatch(needed.strip())
    return f"firmware {_WORDS[match[1]].format(match[2])}" if match is not None else f"firmware {needed}"


def _list_joined(case: Case, item: Item) -> set[str]:
    """The item and those that leads, docks and links with a common language join it to, by whatever way."""
    pairs = [(one.first.item, one.second.item) for one in case.connections if one.protocols]
    for name in case.setup.links:
        hub, *others = case.rig.links[name].radios
        pairs += [(hub.item, other.item) for other in others if other.item in case.setup.items]
    joined, grown = {item.name}, True
    while grown:
        more = {name for pair in pairs if joined & set(pair) for name in pair}
        grown = not more <= joined
        joined |= more
    return joined


def _report(case: Case, item: Item, need: PartNeed, other: Item, needed: str, state: State) -> Finding:
    because = f" while {state.says}" if state.says else ""
    fixes = [Fix(f"Load {_say(needed)} on {other.name}.")]
    for name, values in need.when.items():
        rest = [value for value in item.part.settings[name].values if value not in values]
        if rest:
            changes = fix_setting(case, item.name, name, rest[0]).changes
            fixes.append(Fix(f"Set {item.name}.{name} to {rest[0]} and do without.", changes))
    return Finding(
        code="fit:firmware",
        grade=Grade.DEAD,
        says=f"{item.name} needs {_say(needed)} on {other.name}{because}, and {other.name} has {other.firmware}.",
        at=item.name,
        cause=other.name,
        fixes=tuple(fixes[:2]),
    )


RULE = Rule(
    code="fit:firmware",
    grades=(Grade.DEAD,),
    title="The firmware does not go with it",
    looks_for=(
        "A device whose part asks for a firmware of another kind of device, in dotted numbers, and one of that kind,"
        " joined to it by leads, docks or radio, whose firmware is another."
    ),
    why="The two find each other and do not talk, which looks like a broken lead.",
    put_right="Update the one that is behind, at prep and not on set; or switch off what needs it.",
    source="common practice",
    check=check,
)
