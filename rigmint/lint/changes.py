"""Changes to a rig by verb. Rules propose them; the core turns them into edits of the file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias


@dataclass(frozen=True, slots=True)
class SetSetting:
    """Give a setting a value in every setup in which the finding holds; `setup` None: in all setups. The core writes it
    where the value stands now: at the item, in the rig's settings or in the setup."""

    item: str
    setting: str
    value: str
    setup: str | None


@dataclass(frozen=True, slots=True)
class TakeOutLead:
    """Take a lead out of the setups in which the finding holds, of the rig where those are all that it is in; `setup`:
    of one setup alone."""

    label: str
    setup: str | None = None


@dataclass(frozen=True, slots=True)
class AddLead:
    """Plug in a lead, its end a into `start` and its end b into `to`; `part` None: one that nobody has described.
    `setup` None: in every setup."""

    label: str
    start: str
    to: str
    part: str | None = None
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
class JoinLink:
    """Pair a radio, `item.radio`, with a link, as one of those that reach the hub."""

    link: str
    radio: str


@dataclass(frozen=True, slots=True)
class LeaveLink:
    """Take a radio, `item.radio`, out of a link; a link that is left with its hub alone goes too."""

    link: str
    radio: str


@dataclass(frozen=True, slots=True)
class SwitchOn:
    """Have an item switched on in the setups in which the finding holds."""

    item: str


@dataclass(frozen=True, slots=True)
class FitRing:
    """Put a motor on a ring of a lens, `item.ring`."""

    motor: str
    ring: str


@dataclass(frozen=True, slots=True)
class Unsign:
    """Take an entry out of `accepted:`, by its number from 0."""

    index: int


@dataclass(frozen=True, slots=True)
class SetFitting:
    """Write how a fitted motor runs (`direction`), or ran when its marks were set (`marked`)."""

    motor: str
    key: Literal["direction", "marked"]
    value: str


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
    SetSetting
    | TakeOutLead
    | AddLead
    | MoveEnd
    | SwapEnds
    | ChangePart
    | Mark
    | MeetDistance
    | SetChannel
    | JoinLink
    | LeaveLink
    | SwitchOn
    | FitRing
    | Unsign
    | SetFitting
    | NameWho
    | PackSpares
)
