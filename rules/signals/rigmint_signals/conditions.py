"""Conditions on settings, in words: whether they hold, and which unknown setting they hang on."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint import Barred, Case, Item, When, setting_place


@dataclass(frozen=True, slots=True)
class State:
    """Whether a condition holds; `unknown` is the place of a setting that would decide it, `says` the condition."""

    holds: bool
    unknown: str | None
    says: str


def find_state(case: Case, item: Item, when: When) -> State:
    """The state of a part's condition in the setup."""
    says = " and ".join(f"{item.name}.{name} is {case.setup.setting(item.name, name)}" for name in when)
    judged = case.judge_when(item, when)
    if isinstance(judged, Barred):
        return State(False, None, says)
    if any(not assumption for assumption in judged):
        return State(True, None, says)
    unknown = next(name for name in when if case.setup.is_unknown(item.name, name))
    return State(False, setting_place(item.name, unknown), says)
