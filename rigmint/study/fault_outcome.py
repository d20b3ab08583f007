"""What a single fault does: what goes down, who loses what, what forgets its settings, what moves afterwards."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint.rig.rig import PortRef
from rigmint.study.fault_list import SingleFault


@dataclass(frozen=True, slots=True, order=True)
class Holder:
    """A hand on an axis: the control, and the person in whose crew it is (empty: by hand at its item)."""

    control: str
    person: str


@dataclass(frozen=True, slots=True)
class AxisLoss:
    """An axis that loses hands. `place` is a ring, a joint or a record; `left` are the hands that still have it."""

    place: str
    name: str
    lost: tuple[Holder, ...]
    left: tuple[Holder, ...]

    @property
    def losers(self) -> tuple[str, ...]:
        """The persons that have it no more; a control's item where it is in nobody's crew."""
        kept = {_name(holder) for holder in self.left}
        return tuple(dict.fromkeys(name for holder in self.lost if (name := _name(holder)) not in kept))


def _name(holder: Holder) -> str:
    return holder.person or holder.control.partition(".")[0]


@dataclass(frozen=True, slots=True, order=True)
class FlowLoss:
    """A flow, such as picture, that no longer arrives at an item where it ended."""

    flow: str
    item: str


@dataclass(frozen=True, slots=True, order=True)
class Forgotten:
    """A setting that falls back at power-off; `default` is None where the part does not state to what."""

    item: str
    setting: str
    value: str
    default: str | None


@dataclass(frozen=True, slots=True)
class ShieldReturn:
    """A device whose return runs through a signal lead: A in the most loaded one, and the share of the device's own
    current that leaves by signal leads. `is_whole`: it has no other return."""

    item: str
    lead: str | None
    amps: float
    share: float
    is_whole: bool


@dataclass(frozen=True, slots=True)
class LowPort:
    """A port in use that falls below its window: V at typical, and the lower end of the window."""

    ref: PortRef
    volts: float
    least: float


@dataclass(frozen=True, slots=True)
class LostHead:
    """A head that stays on and whose remote control is gone; `does` is hold, coast or continue, None where its part
    does not state it."""

    item: str
    does: str | None


@dataclass(frozen=True, slots=True)
class FaultOutcome:
    """What one fault does. Tuples are sorted by place, so that two outcomes compare."""

    fault: SingleFault
    down: tuple[str, ...]
    """Items that lose power, or get too little of it; an item that the fault itself switches off is not named."""
    axes: tuple[AxisLoss, ...]
    flows: tuple[FlowLoss, ...]
    forgets: tuple[Forgotten, ...]
    moves: tuple[str, ...]
    """Items that move when their power returns."""
    recalibrates: tuple[str, ...]
    """Lens motors that look for the ends of their ring when their power returns."""
    shields: tuple[ShieldReturn, ...]
    low: tuple[LowPort, ...]
    collapsed: bool
    """No operating point is left: some supply gives way."""
    heads: tuple[LostHead, ...]

    @property
    def is_harmless(self) -> bool:
        """Whether nothing goes down, nobody loses anything, and no return runs where it should not."""
        return not (self.down or self.axes or self.flows or self.forgets or self.shields or self.low or self.collapsed)

    @property
    def effect(self) -> tuple[object, ...]:
        """All of it apart from the fault: faults of one effect are told together."""
        losses = (self.down, self.axes, self.flows, self.forgets, self.moves, self.recalibrates, self.heads)
        return (*losses, self.shields, self.low, self.collapsed)
