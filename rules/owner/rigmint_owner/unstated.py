"""`settings:unstated`: settings that nobody wrote down and that can go wrong."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from rigmint import AxisHands, Case, Claim, Finding, Fix, Grade, Rule, say_list, setting_place
from rigmint_owner.verdict import (
    Judgement,
    Verdict,
    is_operated_remotely,
    judge_everywhere,
)
from rigmint_owner.wording import say_hands

_MOST_TOLD = 3


def check(case: Case) -> Iterator[Finding]:
    """One roll-up of the setup."""
    troubles: dict[tuple[str, str], dict[str, str]] = defaultdict(dict)
    for axis in case.hands.axes.values():
        _gather_hands(case, axis, troubles)
        _gather_follow(case, axis, troubles)
    if not troubles:
        return
    keys = sorted(troubles)
    told = [f"{item}.{name} ({_say_values(troubles[item, name])})" for item, name in keys[:_MOST_TOLD]]
    if len(keys) > _MOST_TOLD:
        told.append(f"{len(keys) - _MOST_TOLD} more")
    places = [setting_place(*key) for key in keys]
    yield Finding(
        code="settings:unstated",
        grade=Grade.THIN,
        says=f"Nobody wrote down {say_list(told)}. Rented gear arrives as the last job left it.",
        at=places[0],
        cause=places[0],
        also=tuple(places[1:]),
        fixes=(Fix(f"Read {say_list([f'{item}.{name}' for item, name in keys])} off the devices and write them down."),),
    )


def _say_values(values: dict[str, str]) -> str:
    return "; ".join(f"if {value}, {trouble}" for value, trouble in sorted(values.items())[:2])


def _gather_hands(case: Case, axis: AxisHands, troubles: dict[tuple[str, str], dict[str, str]]) -> None:
    judged = judge_everywhere(case, axis)
    verdicts = {judgement.verdict for _, judgement in judged}
    if len(verdicts) < 2:
        return
    for values, judgement in judged:
        if judgement.verdict is Verdict.FINE:
            continue
        for key, value in values.items():
            if _would_help(judged, values, key):
                troubles[key].setdefault(value, _say_trouble(axis, judgement))


def _would_help(
    judged: list[tuple[dict[tuple[str, str], str], Judgement]], values: dict[tuple[str, str], str], key: tuple[str, str]
) -> bool:
    """Whether another value of this setting alone would be fine."""
    rest = {other: value for other, value in values.items() if other != key}
    return any(
        judgement.verdict is Verdict.FINE and rest.items() <= other.items() for other, judgement in judged
    )


def _say_trouble(axis: AxisHands, judgement: Judgement) -> str:
    if judgement.verdict is Verdict.NOBODY:
        return f"nobody has {axis.place}"
    shown: tuple[Claim, ...] = judgement.unwanted or judgement.contenders
    return f"{say_hands(shown)} acts on {axis.place}"


def _gather_follow(case: Case, axis: AxisHands, troubles: dict[tuple[str, str], dict[str, str]]) -> None:
    item_name, _, name = axis.place.partition(".")
    item = case.rig.items[item_name]
    if item.part.follow is None or not is_operated_remotely(axis, axis.certain):
        return
    for state in case.following(item).set_mode:
        if state.axis == name:
            for key, value in state.assumes:
                troubles[key].setdefault(value, f"{axis.place} follows while somebody operates it remotely")


RULE = Rule(
    code="settings:unstated",
    grades=(Grade.THIN,),
    title="Settings that nobody wrote down",
    looks_for=(
        "Settings without a value in the rig and without a default, where some value would give an axis to the wrong"
        " hand, to two hands or to none, or make a remotely operated axis follow. Every value is tried."
    ),
    why="A rented desk arrives with its lens control on, a head in the mode of the last job.",
    put_right="Write the value down under `set:`, and set it on the device at prep.",
    source="common practice",
    check=check,
)
