"""Leaves out, before anything is computed, the moves that cannot destroy anything, so that a check stays quick.

Taking a plug out only takes ways away from every source, so what matters is what the plug joins in its wrong socket.
That brings no volts anywhere where each pair of contacts that it joins is

- one piece of metal already,
- or reached by no source, on either side,
- or ground on either side, where no plus waits for that ground to come back by.

The sieve is for rigs as they are built: a lead with a diode or a regulator in it, a source that negotiates, and a rig
that is shorted as it stands, go through to the exact study.
"""

from __future__ import annotations

from collections.abc import Iterator

from rigmint.graph.lead_contacts import spread_contacts
from rigmint.graph.pins import Pin
from rigmint.rig.connector import go_together
from rigmint.rig.rig import PortRef, Rig
from rigmint.study.misplug.judge import Judge
from rigmint.study.misplug.moves import Move
from rigmint.study.misplug.wired import Wired


class Sieve:
    """The sieve of one wiring."""

    def __init__(self, rig: Rig, wired: Wired, judge: Judge, offering: frozenset[PortRef]) -> None:
        self._rig = rig
        self._wired = wired
        self._offering = offering
        self._nets = wired.base.nets
        reaches = wired.base.reaches
        self._plus = {net for reach in reaches for net in reach.plus}
        self._minus = {net for reach in reaches for net in reach.minus}
        self._is_shorted = any(reach.shorted is not None for reach in reaches)
        self._awaited = frozenset(self._list_awaited(judge)) | frozenset(
            self._nets[diode.cathode] for diode in wired.network.diodes
        )

    def is_idle(self, move: Move) -> bool:
        """Whether a move joins nothing that could bring volts anywhere."""
        if self._is_shorted or any(c.diode is not None or c.regulator is not None for c in move.lead.body.conductors):
            return False
        refs = (*move.lead.plugged.values(), move.into)
        return not self._offering.intersection(refs) and all(self._is_idle_pair(*pair) for pair in self._pair(move))

    def _pair(self, move: Move) -> Iterator[tuple[int, int]]:
        """The net of each contact of the wrong socket, with those that the lead would join to it."""
        port, half = self._rig.port(move.into), move.lead.body.ends[move.end]
        for contact in port.connector.contacts:
            if contact not in half.connector.contacts:
                continue
            joined = spread_contacts([(move.end, contact)], move.lead.body.conductors) - {(move.end, contact)}
            for end, other in joined:
                net = self._find_net(move, end, other)
                if net is not None:
                    yield self._net(move.into, contact), net

    def _find_net(self, move: Move, end: str, contact: str) -> int | None:
        """The net that a contact of the moved lead touches: of the moved end, in the wrong socket."""
        ref = move.into if end == move.end else move.lead.plugged.get(end)
        if ref is None:
            return None
        port = self._rig.port(ref)
        is_touching = contact in port.connector.contacts and go_together(port, move.lead.body.ends[end])
        return self._net(ref, contact) if is_touching else None

    def _net(self, ref: PortRef, contact: str) -> int:
        return self._nets[self._wired.metal.node(Pin(ref.item, ref.port, contact))]

    def _is_idle_pair(self, socket: int, wire: int) -> bool:
        if socket == wire:
            return True
        is_reached = [net in self._plus or net in self._minus for net in (socket, wire)]
        if not any(is_reached):
            return True
        return all(net in self._minus and net not in self._plus and net not in self._awaited for net in (socket, wire))

    def _list_awaited(self, judge: Judge) -> Iterator[int]:
        """The nets that would close a circuit if a source's minus came to them."""
        nets = self._nets
        pairs = [(node, row.minus) for row in judge.power for node in row.feeds]
        pairs += [(row.minus, node) for row in judge.power for node in row.feeds]
        pairs += [(row.node, row.ground) for row in judge.signals]
        pairs += [(source.plus, source.minus) for source in self._wired.sources]
        pairs += [(one.source, one.ground) for one in self._wired.network.regulators]
        for reach in self._wired.base.reaches:
            for plus, minus in pairs:
                if nets[plus] in reach.plus and nets[minus] not in reach.minus:
                    yield nets[minus]
