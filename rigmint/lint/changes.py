"""Changes to a rig by verb. Rules propose them; the core turns them into edits of the file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias


@dataclass(frozen=True, slots=True)
class SetSetting:
    """Give a setting a value, in one setup or (None) in all."""

    item: str
    setting: str
    value: str
    setup: str | None


@dataclass(frozen=True, slots=True)
class TakeOutLead:
    """Take a lead out, of one setup or (None) of the rig."""

    label: str
    setup: str | None = None


@dataclass(frozen=True, slots=True)
class MoveEnd:
    """Plug an end of a lead into another port. `end` is the end's name: `a` and `b` where the file writes `from` and
    `to`."""

    label: str
    end: str
    to: str


@dataclass(frozen=True, slots=True)
class SwapEnds:
    """Turn a lead round."""

    label: str


@dataclass(frozen=True, slots=True)
class ChangePart:
    """Give an item or a lead another part."""

    name: str
    part: str


@dataclass(frozen=True, slots=True)
class Mark:
    """Mark a lead or a socket: tape, a cap."""

    place: str
    text: str


@dataclass(frozen=True, slots=True)
class MeetDistance:
    """Set a link's distance in m."""

    link: str
    metres: float
    setup: str | None


@dataclass(frozen=True, slots=True)
class SetChannel:
    """Move a link to another radio channel."""

    link: str
    channel: str


@dataclass(frozen=True, slots=True)
class NameWho:
    """Name a person for an axis under `who`, beside those who are named already; `beside` where nobody is. `axis` is
    the short form of `place` where only one item has it."""

    place: str
    axis: str
    person: str
    beside: str
    setup: str


@dataclass(frozen=True, slots=True)
class PackSpares:
    """Put spares of a part into the case. `index` is the entry of `also` that has them already; None: a new one."""

    part: str
    count: int
    why: str
    index: int | None


Change: TypeAlias = (
    SetSetting | TakeOutLead | MoveEnd | SwapEnds | ChangePart | Mark | MeetDistance | SetChannel | NameWho | PackSpares
)
