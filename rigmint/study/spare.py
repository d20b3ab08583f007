"""What a lead is needed for: which items lose their feed without it, and which lead of a way nothing needs."""

from __future__ import annotations

from collections.abc import Sequence

from rigmint.rig.electric import Role
from rigmint.rig.rig import Setup
from rigmint.study.electronics import wants_volts
from rigmint.study.paths import Way
from rigmint.study.powering import Feed, RailFeed
from rigmint.study.studies import Studies
from rigmint.study.worst_volts import WorstVolts


def find_items_lost(studies: Studies, setup: Setup, label: str) -> frozenset[str]:
    """The items that are fed and would not be without a lead, or with too little to work."""
    without = studies.powering_without(setup, label)
    rails = without.list_unpowered_keys() - studies.powering(setup).list_unpowered_keys()
    unrated = _fed_unrated(studies, studies.worst_volts(setup))
    still = _fed_unrated(studies, studies.worst_volts_without(setup, label))
    in_window = _fed_in_window(studies.worst_volts(setup))
    starved = in_window - _fed_in_window(studies.worst_volts_without(setup, label))
    return frozenset(item for item, _ in rails) | (unrated - still) | (starved - setup.off)


def is_spare(studies: Studies, setup: Setup, label: str) -> bool:
    """Whether everything that is fed is fed without a lead too."""
    return not find_items_lost(studies, setup, label)


def find_only_returns(studies: Studies, setup: Setup, rail: RailFeed) -> tuple[str, ...]:
    """The leads on a rail's own item without any one of which it has plus and no return."""
    own = [
        label
        for label in sorted(setup.leads)
        if any(ref.item == rail.load.item for ref in studies.rig.leads[label].plugged.values())
    ]
    return tuple(
        label
        for label in own
        for one in studies.powering_without(setup, label).rails
        if one.load.key == rail.load.key and one.feed is Feed.NO_RETURN
    )


def find_spare_feed(studies: Studies, setup: Setup, way: Way, labels: Sequence[str], victim: str) -> str | None:
    """A lead among `labels` without which everything is still powered: one that joins output to output before others,
    then one that carries no signal, and of these the one nearest to the stronger of the two sources, which is the raw
    feed."""
    spare = [label for label in labels if is_spare(studies, setup, label)]
    silent = [label for label in spare if not studies.signals(setup).protocols_over(label)]
    candidates = silent or spare
    if not candidates:
        return None
    joining = [label for label in candidates if _joins_outputs(studies, label)]
    if joining:
        return joining[0]
    source = next((one for one in studies.network(setup).sources if one.item == way.places[0]), None)
    own = max((cell.volts.high for cell in studies.rig.items[victim].part.cells.values()), default=0.0)
    is_stronger = source is None or source.highest >= own
    return candidates[0] if is_stronger else candidates[-1]


def _joins_outputs(studies: Studies, label: str) -> bool:
    """Whether every end of a lead is in a port that gives power: no such lead feeds anything."""
    plugged = studies.rig.leads[label].plugged.values()
    return len(plugged) > 1 and all(studies.rig.port(ref).role is Role.OUT for ref in plugged)


def _fed_in_window(worst: WorstVolts) -> frozenset[str]:
    """The items that some source brings to the lower end of what they work on."""
    return frozenset(
        ref.item
        for ref, volts in worst.ports.items()
        if volts.port.role is not Role.OUT
        and volts.port.works is not None
        and volts.high is not None
        and volts.high.volts >= volts.port.works.low
    )


def _fed_unrated(studies: Studies, worst: WorstVolts) -> frozenset[str]:
    """The items that some source reaches at a port which is not only an output, and whose load nobody stated: a study
    of loads does not see them."""
    return frozenset(
        ref.item
        for ref, volts in worst.ports.items()
        if (volts.high is not None or volts.low is not None)
        and volts.port.role is not Role.OUT
        and wants_volts(studies.rig.items[ref.item].part)
    )
