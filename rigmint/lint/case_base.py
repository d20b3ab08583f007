"""What every part of a case has in common: the rig, the setup, the rule's parameters, and what a part assumes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from rigmint.graph.pins import PinNetwork
from rigmint.rig.choice import When
from rigmint.rig.electric import Port
from rigmint.rig.house import House
from rigmint.rig.rig import Item, PortRef, Rig, Setup
from rigmint.study.conditions import Assumption, Barred, judge_when
from rigmint.study.studies import Studies

if TYPE_CHECKING:
    import networkx


class CaseBase:
    """One rig in one setup, for one rule. `parameters` are the rule's own, as the library sets them."""

    def __init__(self, studies: Studies, setup: Setup, parameters: Mapping[str, float]) -> None:
        self._studies = studies
        self.setup = setup
        self.parameters = parameters

    @property
    def rig(self) -> Rig:
        """The rig."""
        return self._studies.rig

    @property
    def house(self) -> House:
        """What the library says."""
        return self._studies.house

    @property
    def items(self) -> tuple[Item, ...]:
        """The items that are there, by name."""
        return tuple(self.rig.items[name] for name in sorted(self.setup.items))

    @property
    def network(self) -> PinNetwork:
        """The pin-level network."""
        return self._studies.network(self.setup)

    @property
    def graph(self) -> networkx.MultiDiGraph[str]:
        """The connection graph of what is there."""
        return self._studies.graph(self.setup)

    def port(self, ref: PortRef) -> Port:
        """The port at a place."""
        return self.rig.port(ref)

    def judge_when(self, item: Item, when: When) -> list[Assumption] | Barred:
        """The assumptions under which a condition on an item's settings holds, or what bars it."""
        return judge_when(item, when, self.setup)

    def assumed_of(self, ref: PortRef, *figures: str) -> tuple[str, ...]:
        """Those of a port's figures for which a default stands in, as `place figure`."""
        port = self.port(ref)
        return tuple(f"{ref.place} {figure}" for figure in figures if figure in port.assumed)

    def assumed_of_lead(self, label: str) -> tuple[str, ...]:
        """`label conductors` for a lead that nobody described."""
        lead = self.rig.leads.get(label)
        return (f"{label} conductors",) if lead is not None and lead.body.straight else ()

    def is_gauge_assumed(self, label: str) -> bool:
        """Whether a default stands in for the gauge of a lead."""
        return any(conductor.assumed for conductor in self.rig.leads[label].body.conductors)
