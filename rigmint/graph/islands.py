"""Islands: the items and leads that current can join, through whatever elements."""

from __future__ import annotations

from rigmint.graph.nets import Groups
from rigmint.graph.pins import PinNetwork


def find_islands(network: PinNetwork) -> dict[str, int]:
    """Item or lead label to the number of its island: of an owner on several, the one that its power is on."""
    groups = Groups(len(network.pins))
    for join in network.joins:
        groups.unite(join.first, join.second)
    for diode in network.diodes:
        groups.unite(diode.anode, diode.cathode)
    for regulator in network.regulators:
        groups.unite(regulator.source, regulator.output)
        groups.unite(regulator.source, regulator.ground)
    for load in network.loads:
        groups.unite(load.rail_pin, load.ground)
    for source in network.sources:
        groups.unite(source.plus, source.minus)
    live = {groups.root(source.plus) for source in network.sources}
    owners: dict[str, int] = {}
    for number, pin in enumerate(network.pins):
        island = groups.root(number)
        if pin.owner not in owners or (island in live and owners[pin.owner] not in live):
            owners[pin.owner] = island
    return owners
