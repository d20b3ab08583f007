"""Everything that a change does to a rig, gathered."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from rigmint.study.compared.arrivals import Arrival, compare_arrivals
from rigmint.study.compared.hands import Hold, compare_hands
from rigmint.study.compared.kit import KitChange, compare_kits
from rigmint.study.compared.mass import compare_masses
from rigmint.study.compared.moved import Moved
from rigmint.study.compared.reach import Span, compare_reaches
from rigmint.study.compared.runtime import compare_change_volts, compare_runtimes
from rigmint.study.compared.settings import compare_intentions, compare_settings
from rigmint.study.compared.volts import PortMove, compare_volts
from rigmint.study.studies import Studies


@dataclass(frozen=True, slots=True)
class RigDifference:
    """What differs between two rigs; studies are compared in the setups that both have."""

    setups_gained: tuple[str, ...]
    setups_lost: tuple[str, ...]
    kit: tuple[KitChange, ...]
    settings: tuple[Moved[str, str], ...]
    intentions: tuple[Moved[str, str], ...]
    volts: tuple[PortMove, ...]
    hands: tuple[Moved[tuple[str, str], Hold], ...]
    arrivals: tuple[Moved[tuple[str, str], Arrival], ...]
    reaches: tuple[Moved[tuple[str, str, str], Span], ...]
    runtimes: tuple[Moved[str, float], ...]
    change_volts: tuple[Moved[str, float], ...]
    masses: tuple[Moved[tuple[str, str], float], ...]

    @property
    def is_empty(self) -> bool:
        """Whether nothing differs."""
        return self == NO_DIFFERENCE


NO_DIFFERENCE = RigDifference((), (), (), (), (), (), (), (), (), (), (), ())


def compare_rigs(old: Studies, new: Studies, setups: Collection[str]) -> RigDifference:
    """Compare two rigs by what they do, in those of the setups named that both have."""
    was, now = ({name: setup for name, setup in studies.rig.setups.items() if name in setups} for studies in (old, new))
    pairs = tuple((was[name], now[name]) for name in now if name in was)
    return RigDifference(
        setups_gained=tuple(name for name in now if name not in was),
        setups_lost=tuple(name for name in was if name not in now),
        kit=compare_kits(old.rig, new.rig),
        settings=compare_settings(pairs),
        intentions=compare_intentions(pairs),
        volts=compare_volts(old, new, pairs),
        hands=compare_hands(old, new, pairs),
        arrivals=compare_arrivals(old, new, pairs),
        reaches=compare_reaches(old, new, pairs),
        runtimes=compare_runtimes(old, new, pairs),
        change_volts=compare_change_volts(old, new, pairs),
        masses=compare_masses(old, new, pairs),
    )
