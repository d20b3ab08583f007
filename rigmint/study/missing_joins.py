"""Leads and links that are not there: where a signal could go on from a place if somebody plugged or paired it."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint.graph.signals import Stop
from rigmint.rig.rig import PortRef
from rigmint.study.signal_map import SignalMap


def list_missing_joins(signals: SignalMap, item: str, name: str, token: str) -> Iterator[tuple[PortRef, Stop]]:
    """The ports or radios of other items to which an axis or a flow could go on from a place, each with the words for
    the lead or the link that is not there."""
    yield from _missing_leads(signals, PortRef(item, name), token)
    yield from _missing_links(signals, PortRef(item, name), token)


def _missing_leads(signals: SignalMap, ref: PortRef, token: str) -> Iterator[tuple[PortRef, Stop]]:
    """Ports of other items that would speak with an open port that carries the token."""
    port = signals.part(ref.item).ports.get(ref.port)
    if port is None or signals.is_connected(ref) or not signals.carries(ref.item, ref.port, token):
        return
    protocols = {name for name in port.speaks if token in signals.rig.protocols[name].carries}
    for other_name in sorted(signals.setup.items - {ref.item}):
        for other in signals.part(other_name).ports.values():
            far = PortRef(other_name, other.name)
            if protocols & set(other.speaks) and not signals.is_connected(far):
                yield far, Stop(far.place, f"no lead joins {ref.place} and {far.place}")


def _missing_links(signals: SignalMap, ref: PortRef, token: str) -> Iterator[tuple[PortRef, Stop]]:
    """Radios of other items that speak what this one speaks and are in no link with it."""
    radio = signals.part(ref.item).radios.get(ref.port)
    if radio is None:
        return
    protocols = {name for name in radio.speaks if token in signals.rig.protocols[name].carries}
    for other_name in sorted(signals.setup.items - {ref.item}):
        for other in signals.part(other_name).radios.values():
            far = PortRef(other_name, other.name)
            if protocols & set(other.speaks) and not signals.are_linked(ref, far):
                yield far, Stop(ref.place, f"no link joins {ref.place} and {far.place}")
