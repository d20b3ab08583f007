"""`settings:unstated`: settings that nobody wrote down and that can go wrong."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from rigmint import (
    LENS_AXES,
    AxisHands,
    Case,
    Claim,
    Finding,
    Fix,
    Grade,
    Hands,
    Judgement,
    Rule,
    Unknown,
    Verdict,
    is_operated_remotely,
    say_list,
    setting_place,
)
from rigmint_owner.verdict import MOST_COMBINATIONS, hold_under, judge_everywhere, list_combinations
from rigmint_owner.wording import say_hands
from rigmint_owner.wrong_ring import list_wrong

_MOST_TOLD = 3


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One roll-up of the setup."""
    troubles: dict[tuple[str, str], dict[str, str]] = defaultdict(dict)
    for axis in case.hands.axes.values():
        if not list_combinations(case, axis.claims):
            says = f"more than {MOST_COMBINATIONS} combinations of settings act on {axis.place}: write some down"
            yield Unknown("settings:unstated", "settings", axis.place, says)
        _gather_hands(case, axis, troubles)
        _gather_follow(case, axis, troubles)
    _gather_rings(case, troubles)
    if not troubles:
        return
    keys = sorted(troubles)
    names = [f"{item}.{name}" for item, name in keys]
    told = [_say_values(f"{item}.{name}", troubles[item, name]) for item, name in keys[:_MOST_TOLD]]
    places = [setting_place(*key) for key in keys]
    what = "it" if len(keys) == 1 else "them"
    yield Finding(
        code="settings:unstated",
        grade=Grade.THIN,
        says=f"Nobody wrote down {say_list(names)}. {' '.join(told)} Rented gear arrives as the last job left it.",
        at=places[0],
        cause=places[0],
        also=tuple(places[1:]),
        fixes=(Fix(f"Read {say_list(names)} off the device at prep and write {what} down under `set:`."),),
    )


def _say_values(name: str, values: dict[str, str]) -> str:
    """What happens at one value that goes wrong."""
    value, trouble = min(values.items())
    return f"With {name} set to {value}, {trouble}."


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
    return any(judgement.verdict is Verdict.FINE and rest.items() <= other.items() for other, judgement in judged)


def _say_trouble(axis: AxisHands, judgement: Judgement) -> str:
    if judgement.verdict is Verdict.NOBODY:
        return f"nobody has {axis.place}"
    shown: tuple[Claim, ...] = judgement.unwanted or judgement.contenders
    return f"{axis.place} answers to {say_hands(shown)}"


def _gather_rings(case: Case, troubles: dict[tuple[str, str], dict[str, str]]) -> None:
    """Motors that would turn another ring than their own: of a hand unit with a control for each axis, some control
    reaches the ring whatever the motor is set to."""
    claims = [claim for axis in case.hands.axes.values() for claim in axis.claims if claim.axis in LENS_AXES]
    if all(claim.is_certain for claim in claims):
        return
    judged = [(values, list_wrong(_suppose(case.hands, values))) for values in list_combinations(case, claims)]
    sound = [values for values, wrong in judged if not wrong]
    for values, wrong in judged:
        for axis, claim in wrong[:1]:
            for key, value in values.items():
                rest = {other: at for other, at in values.items() if other != key}
                if any(rest.items() <= other.items() for other in sound):
                    troubles[key].setdefault(value, f"{claim.control} sends {claim.axis} and turns {axis.place}")


def _suppose(hands: Hands, values: Mapping[tuple[str, str], str]) -> Hands:
    """Who has what when unknown settings have these values."""
    known: Mapping[tuple[str, str], str] = MappingProxyType({})
    axes = {
        place: replace(axis, claims=tuple(replace(one, assumes=known) for one in hold_under(axis.claims, values)))
        for place, axis in hands.axes.items()
    }
    return Hands(MappingProxyType(axes))


def _gather_follow(case: Case, axis: AxisHands, troubles: dict[tuple[str, str], dict[str, str]]) -> None:
    item_name, _, name = axis.place.partition(".")
    item = case.rig.items[item_name]
    if item.part.follow is None or not is_operated_remotely(axis, axis.certain):
        return
    for state in case.following(item).set_mode:
        if state.axis == name:
            for key, value in state.assumes:
                troubles[key].setdefault(value, f"{axis.place} follows whoever carries it")


RULE = Rule(
    code="settings:unstated",
    grades=(Grade.THIN,),
    title="Settings that nobody wrote down",
    looks_for=(
        "Settings without a value in the rig and without a default, where some value would give an axis to the wrong"
        " hand, to two hands or to none, turn another ring than the motor's own, or make a remotely operated axis"
        " follow. Every value is tried."
    ),
    why="A rented desk arrives with its lens control on, a head in the mode of the last job.",
    put_right="Write the value down under `set:`, and set it on the device at prep.",
    source="common practice",
    check=check,
)
