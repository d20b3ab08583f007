"""Where volts would go behind a contact that no source reaches, and whether everything there stands them: a bound,
which may only be too high. What it cannot answer for is left to the exact study."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping

from rigmint.study.misplug.judge import Judge
from rigmint.study.misplug.wired import Wired


class Onward:
    """The ways on from each net of a wiring, through all that conducts one way, and what the nets stand."""

    def __init__(self, wired: Wired, judge: Judge) -> None:
        nets = wired.base.nets
        returns = [volts for reach in wired.base.reaches for volts in reach.minus.values()]
        ground = max(returns, default=0.0)
        self._steps: dict[int, list[tuple[int, float | None]]] = defaultdict(list)
        """Net to the nets behind it, with the V that a regulator gives there, or None where it is those of the net."""
        for diode in wired.network.diodes:
            self._steps[nets[diode.anode]].append((nets[diode.cathode], None))
        for one in wired.network.regulators:
            self._steps[nets[one.source]].append((nets[one.output], ground + one.out))
            if one.spec.blocks is not True:
                self._steps[nets[one.output]].append((nets[one.source], None))
        self._most: dict[int, float] = {}
        """Net to the V that the weakest of its ports survives, where one has a limit."""
        for row in judge.power:
            if row.limits.low is not None and row.limits.high is not None:
                self._lower(row.limits.high, (nets[node] for node in row.feeds))
        for signal in judge.signals:
            self._lower(signal.limit, (nets[signal.node],))
        self._unanswered = {nets[node] for node in _list_unanswered(wired, judge)}

    def _lower(self, limit: float, nets: Iterable[int]) -> None:
        for net in nets:
            self._most[net] = min(limit, self._most.get(net, math.inf))

    def stands(self, volts: Mapping[int, float], joined: Mapping[int, Iterable[int]]) -> bool:
        """Whether everything stands these V, brought to these nets, once each net of `joined` is one with others."""
        found: dict[int, float] = {}
        pending = list(volts.items())
        while pending:
            net, here = pending.pop()
            if here <= found.get(net, -math.inf):
                continue
            if net in self._unanswered or here > self._most.get(net, math.inf):
                return False
            found[net] = here
            pending += [(other, here if fixed is None else fixed) for other, fixed in self._steps.get(net, ())]
            pending += [(other, here) for other in joined.get(net, ())]
        return True


def _list_unanswered(wired: Wired, judge: Judge) -> Iterator[int]:
    """The nodes where more than too many volts can go wrong: a minus or a ground, which plus would reverse; a source,
    which it would be tied to; an output, which it would be pushed into."""
    for row in judge.power:
        yield row.minus
    for signal in judge.signals:
        yield signal.ground
    for source in wired.sources:
        yield from (source.plus, source.minus)
    for regulator in wired.network.regulators:
        yield regulator.ground
    for row in judge.outputs:
        yield from row.feeds
