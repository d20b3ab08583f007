"""Following: the head axes that follow the carrier, in the mode that is set, in the modes that can be reached, and
after a power cycle."""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import MappingProxyType

from rigmint.rig.device import Follow
from rigmint.rig.rig import Item, SettingState, Setup
from rigmint.study.conditions import NOTHING, Assumption, join_assumptions, resolve_choice


@dataclass(frozen=True, slots=True)
class FollowState:
    """An axis that follows in a mode. `setting` is the axis's own switch in that mode; None where the mode fixes it."""

    axis: str
    mode: str
    setting: str | None
    assumes: Assumption


@dataclass(frozen=True, slots=True)
class Following:
    """A head's follow in one setup."""

    set_mode: tuple[FollowState, ...]
    """In the mode that is set; several modes where the setting is unknown, each with its assumption."""
    in_cycle: tuple[FollowState, ...]
    """In the other modes of the cycle."""
    after_power_cycle: tuple[FollowState, ...]
    """In the mode that is set once forgotten settings have fallen back, where it was not so before."""


NO_FOLLOWING = Following((), (), ())


def find_following(item: Item, setup: Setup) -> Following:
    """The follow of a head in a setup; nothing for an item without follow modes."""
    follow = item.part.follow
    if follow is None:
        return NO_FOLLOWING
    set_mode = _in_set_mode(item, follow, setup)
    modes = {word for words, _ in resolve_choice(item, follow.mode, setup) for word in words}
    others = [mode for mode in follow.cycle if mode not in modes or len(modes) > 1]
    in_cycle = [state for mode in others for state in _in_mode(item, follow, mode, setup, NOTHING)]
    before = {(state.axis, state.mode) for state in set_mode}
    forgotten = _in_set_mode(item, follow, _forget(item, setup))
    return Following(
        set_mode=tuple(set_mode),
        in_cycle=tuple(in_cycle),
        after_power_cycle=tuple(state for state in forgotten if (state.axis, state.mode) not in before),
    )


def _in_set_mode(item: Item, follow: Follow, setup: Setup) -> list[FollowState]:
    return [
        state
        for words, assumption in resolve_choice(item, follow.mode, setup)
        for mode in words
        for state in _in_mode(item, follow, mode, setup, assumption)
    ]


def _in_mode(item: Item, follow: Follow, mode: str, setup: Setup, assumption: Assumption) -> list[FollowState]:
    states = []
    for axis, choice in follow.modes.get(mode, {}).items():
        for words, extra in resolve_choice(item, choice, setup):
            joined = join_assumptions(assumption, extra)
            if "on" in words and joined is not None:
                states.append(FollowState(axis, mode, choice.setting, joined))
    return states


def _forget(item: Item, setup: Setup) -> Setup:
    """The setup after a power cycle: what is forgotten falls back to its default."""
    settings = dict(setup.settings)
    for setting in item.part.settings.values():
        if setting.forgets and setting.default is not None:
            settings[item.name, setting.name] = SettingState(setting.default, "default")
    return replace(setup, settings=MappingProxyType(settings))
