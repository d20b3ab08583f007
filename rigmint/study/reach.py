"""How far a radio link reaches: what the makers state for the region."""

from __future__ import annotations

from rigmint.study.signal_map import Hop, SignalMap


def find_link_reach(signals: SignalMap, item: str, radio: str, hop: Hop) -> float | None:
    """The smaller of the two radios' stated reaches in m for the setup's region; None where neither states one."""
    region = signals.setup.region
    stated = []
    for owner, name in ((item, radio), (hop.item, hop.name)):
        reaches = signals.part(owner).radios[name].reach
        if region is None:
            stated += [min(reaches.values())] if reaches else []
        elif region in reaches:
            stated.append(reaches[region])
    return min(stated) if stated else None
