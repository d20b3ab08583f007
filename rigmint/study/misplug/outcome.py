"""What a misplug does."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from rigmint.rig.rig import PortRef, Rig
from rigmint.study.misplug.burns import Harm
from rigmint.study.misplug.losses import Loss
from rigmint.study.misplug.mistakes import Mistake


class Outcome(StrEnum):
    """What a misplug does."""

    BURN = "burn"
    DEAD = "dead"
    HARMLESS = "harmless"


@dataclass(frozen=True, slots=True)
class Misplug:
    """One mistake and what it does in the setups named."""

    mistake: Mistake
    setups: tuple[str, ...]
    outcome: Outcome
    port: PortRef
    """What it destroys first, or where it shows."""
    volts: float | None
    """V there; None where no source reaches it."""
    harms: tuple[Harm, ...] = ()
    """What is destroyed, the first on the way first."""
    losses: tuple[Loss, ...] = ()
    """What no longer works, where nothing is destroyed."""
    perhaps: tuple[Harm, ...] = ()
    """What is destroyed only if a regulator lets current back that does not state whether it does."""


def find_marks(rig: Rig, misplug: Misplug) -> tuple[str, ...]:
    """The marks that answer a misplug: on the lead, on its end, on the wrong socket, or on what dies of it."""
    mistake = misplug.mistake
    places = [mistake.into.place, misplug.port.place]
    if mistake.lead is not None:
        places = [mistake.lead, f"{mistake.lead}:{mistake.end}", *places]
    return tuple(place for place in dict.fromkeys(places) if place in rig.marked)
