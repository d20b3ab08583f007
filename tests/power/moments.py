"""The three operating points of a rig's wiring: full, typical, change with the largest extra peaks."""

from __future__ import annotations

from tests.power.elements import Wiring, reach_from
from tests.power.netlist import Moment

CHANGE_OHMS = 1.5


def list_moment(wiring: Wiring, point: str, peaks: int, *, scale_volts: float = 1.0) -> Moment:
    """The figures of a point; `scale_volts` multiplies the volts of every source."""
    is_change = point == "change"
    peaking = find_peaking(wiring, peaks) if is_change else set()
    return Moment(
        volts=tuple(source.volts[point] * scale_volts for source in wiring.sources),
        ohms=tuple(source.ohms * (CHANGE_OHMS if is_change else 1.0) for source in wiring.sources),
        amounts=tuple(load.peak if n in peaking else load.amount for n, load in enumerate(wiring.loads)),
    )


def find_peaking(wiring: Wiring, peaks: int) -> set[int]:
    """Of the loads that share a source, those with the largest extra in watts at its nominal; of equal ones the first
    by item and rail."""
    peaking: set[int] = set()
    for source in wiring.sources:
        fed = reach_from(wiring, source.plus)
        volts = source.volts["typical"]
        extras = sorted(
            (load.watts_at(load.amount, volts) - load.watts_at(load.peak, volts), load.item, load.rail, index)
            for index, load in enumerate(wiring.loads)
            if load.plus in fed
        )
        peaking |= {index for extra, _, _, index in extras[:peaks] if extra < 0}
    return peaking
