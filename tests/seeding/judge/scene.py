"""A rig in a setup as plain data: what is there, how it is set, and its wiring with what worst volts need besides."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tests.power.amounts import read_amount, read_range
from tests.power.elements import Wiring
from tests.power.files import Shelf, Tree
from tests.power.leads import LeadReading, read_entry
from tests.power.parts import PortReading, plus_rail
from tests.power.wire_up import WiringWriter


class Scene(WiringWriter):
    """One setup of a rig. `closes`: whether every switch counts as closed, as for what may happen."""

    def __init__(self, rig: Tree, setup: str, shelf: Shelf, *, closes: bool = False) -> None:
        super().__init__(rig, setup, shelf)
        self._closes = closes
        self.blocks: list[str | None] = []
        """Of each regulator of the wiring."""
        self.most: list[float] = []
        """Volts of each source at its fullest, spikes too."""
        self.lowest: list[float] = []
        """Volts of each source where the crew changes it."""
        self.charge: list[float] = []
        """A that each source may take."""
        self.wiring: Wiring = self.write()

    @property
    def rig(self) -> Tree:
        """The rig's tree."""
        return self._rig

    @property
    def shelf(self) -> Shelf:
        """Parts, connectors, protocols."""
        return self._shelf

    @property
    def setup(self) -> Tree:
        """The setup's own entry."""
        return self._setup

    @property
    def name(self) -> str:
        """The setup's name."""
        return self._name

    @property
    def parts(self) -> Mapping[str, Tree]:
        """Item to part, of what is there."""
        return self._parts

    @property
    def off(self) -> set[str]:
        """Items that are switched off."""
        return self._off

    @property
    def settings(self) -> Mapping[str, str]:
        """`item.setting` to value; those that nobody stated are not in it."""
        return self._settings

    @property
    def ports(self) -> Mapping[str, PortReading]:
        """`item.port` to reading, also of items that are out."""
        return self._all_ports

    @property
    def leads(self) -> Mapping[str, LeadReading]:
        """Label to lead, of those that are there."""
        return self._leads

    @property
    def docks(self) -> list[tuple[str, str]]:
        """Docked ports."""
        return self._docks

    @property
    def links(self) -> dict[str, Tree]:
        """Links that are there, with the radios of items that are there."""
        found = {}
        out = set(self._setup.get("out", ())) | set(self._setup.get("unplugged", ()))
        for name, body in self._rig.get("links", {}).items():
            if name not in out and self._is_in(body):
                radios = [radio for radio in body["between"] if radio.partition(".")[0] in self._parts]
                found[name] = {**body, "between": radios, "hub": body["between"][0]}
        return found

    def entry(self, item: str) -> Tree:
        """An item's entry in the kit, as a mapping."""
        body = self._rig["kit"][item]
        return {"part": body} if isinstance(body, str) else body

    def lead_entry(self, label: str) -> Tree:
        """A lead's entry, as a mapping."""
        return read_entry(self._rig["leads"][label])[0]

    def _is_closed(self, item: str, when: Tree) -> bool:
        return self._closes or super()._is_closed(item, when)

    def _add_regulator(self, near: str, far: str, ground: str, body: Tree, negotiated: float | None) -> None:
        super()._add_regulator(near, far, ground, body, negotiated)
        self.blocks.append(body.get("blocks"))

    def _add_cell(self, item: str, name: str, cell: Tree, ports: dict[str, PortReading]) -> None:
        super()._add_cell(item, name, cell, ports)
        source = self._wiring.sources[-1]
        low, high = read_range(cell["volts"])
        fixed = self._negotiate(item, plus_rail(self._parts[item], cell.get("rail")), ports)
        self.most.append(fixed if fixed is not None else read_amount(cell["spikes"]) if "spikes" in cell else high)
        is_battery = self._parts[item]["kind"] != "supply" and "energy" in cell
        self.lowest.append(source.volts["change"] if is_battery else low)
        charge = cell.get("charge", "never")
        self.charge.append(0.0 if charge == "never" else read_amount(charge))


def as_list(value: Any) -> list[Any]:
    """A value that may stand for a list of one."""
    if value is None:
        return []
    return list(value) if isinstance(value, list) else [value]
