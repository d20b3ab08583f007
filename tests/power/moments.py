"""The three operating points of a rig's wiring: full, typical, change with the largest extra peaks."""

from __future__ import annotations

from collections.abc import Collection

from tests.power.elements import Load, Wiring, reach_from
from tests.power.netlist import Moment

CHANGE_OHMS = 1.5


def list_moment(
    wiring: Wiring, point: str, peaks: int, *, idle: Collection[int] = (), scale_volts: float = 1.0
) -> Moment:
    """The figures of a point. `idle`: indices of loads that draw nothing; `scale_volts` multiplies the volts of every
    source."""
    is_change = point == "change"
    peaking = find_peaking(wiring, peaks, idle) if is_change else set()
    return Moment(
        volts=tuple(source.volts[point] * scale_volts for source in wiring.sources),
        ohms=tuple(source.ohms * (CHANGE_OHMS if is_change else 1.0) for source in wiring.sources),
        amounts=tuple(
            _idle_amount(load) if n in idle else load.peak if n in peaking else load.amount
            for n, load in enumerate(wiring.loads)
        ),
    )


def _idle_amount(load: Load) -> float:
    return 1e12 if load.unit == "ohm" else 0.0


def find_peaking(wiring: Wiring, peaks: int, idle: Collection[int] = ()) -> set[int]:
    """Of the loads that share a source, those with the largest extra in watts at its nominal; of equal ones the first
    by item and rail."""
    peaking: set[int] = set()
    for source in wiring.sources:
        fed = reach_from(wiring, source.plus)
        volts = source.volts["typical"]
        extras = sorted(
            (load.watts_at(load.amount, volts) - load.watts_at(load.peak, volts), load.item, load.rail, index)
            for index, load in enumerate(wiring.loads)
            if load.plus in fed and index not in idle
        )
        peaking |= {index for extra, _, _, index in extras[:peaks] if extra < 0}
    return peaking
