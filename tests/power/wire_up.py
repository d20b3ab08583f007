"""A rig file and a setup to wiring, straight from the text, as the design states the circuit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tests.power.amounts import find_curve_volts, read_amount, read_range, unit_of
from tests.power.elements import Diode, Load, Mate, Place, Regulator, Source, Wire, Wiring
from tests.power.files import Shelf, Tree
from tests.power.leads import LeadReading, do_mate, read_entry, read_lead
from tests.power.parts import PortReading, find_window_low, list_rails, plus_rail, read_ports

POINTS = ("full", "typical", "change")
_FUSE_OHMS = 0.005
_BOND_OHMS = 0.005
_USB_VOLTS = 5.0


def list_setups(rig: Tree) -> list[str]:
    """The setups of a rig; `as_wired` where it has none."""
    return list(rig.get("setups") or {"as_wired": {}})


class WiringWriter:
    """Writes the wiring of one setup."""

    def __init__(self, rig: Tree, setup: str, shelf: Shelf) -> None:
        self._rig, self._name, self._shelf = rig, setup, shelf
        self._setup: Tree = (rig.get("setups") or {}).get(setup) or {}
        self._celsius = read_amount(shelf.power.get("wire_temperature", "20 degC")) - 273.15
        self._change_at = read_amount(shelf.power.get("change_at", "15 %"))
        kit = {name: {"part": body} if isinstance(body, str) else body for name, body in rig.get("kit", {}).items()}
        out = set(self._setup.get("out", ()))
        parts = {name: shelf.part(body["part"]) for name, body in kit.items()}
        self._all_ports = {
            f"{name}.{port}": reading
            for name, part in parts.items()
            for port, reading in read_ports(part, shelf).items()
        }
        self._kinds = {name: str(part["kind"]) for name, part in parts.items()}
        self._parts = {name: part for name, part in parts.items() if name not in out and self._is_in(kit[name])}
        self._off = set(self._setup.get("off", ())) & set(self._parts)
        self._settings = self._read_settings(kit, parts)
        self._leads = dict(self._list_leads(out | set(self._setup.get("unplugged", ()))))
        self._docks = list(self._list_docks())
        self._wiring = Wiring()

    def write(self) -> Wiring:
        """The wiring of what is there."""
        for item in self._parts:
            self._add_item(item)
        for label, lead in self._leads.items():
            self._add_lead(label, lead)
        for first, second in self._docks:
            self._add_dock(first, second)
        return self._wiring

    def _is_in(self, body: Any) -> bool:
        stated = body.get("in") if isinstance(body, dict) else None
        return stated is None or self._name in ([stated] if isinstance(stated, str) else stated)

    def _read_settings(self, kit: Tree, parts: Tree) -> dict[str, str]:
        values = {
            f"{name}.{setting}": body["default"]
            for name, part in parts.items()
            for setting, body in part.get("settings", {}).items()
            if isinstance(body, dict) and "default" in body
        }
        for name, body in kit.items():
            values |= {f"{name}.{setting}": value for setting, value in body.get("set", {}).items()}
        values |= self._rig.get("settings", {})
        values |= self._setup.get("set", {})
        return values

    def _list_leads(self, taken_out: set[str]) -> Iterator[tuple[str, LeadReading]]:
        for label, written in self._rig.get("leads", {}).items():
            entry, plugged = read_entry(written)
            is_there = all(place.partition(".")[0] in self._parts for place in plugged.values())
            if is_there and label not in taken_out and self._is_in(entry):
                yield label, read_lead(entry, plugged, self._all_ports, self._kinds, self._shelf, self._celsius)

    def _list_docks(self) -> Iterator[tuple[str, str]]:
        for written in self._rig.get("docks", ()):
            entry, places = read_entry(written)
            if all(place.partition(".")[0] in self._parts for place in places.values()) and self._is_in(entry):
                yield places["a"], places["b"]

    def _add_item(self, item: str) -> None:
        part, wiring = self._parts[item], self._wiring
        ground = f"{item}|ground"
        if part.get("chassis") == "earth":
            wiring.joined.append((ground, "earth"))
        for rail in list_rails(part):
            wiring.tied.append((f"{item}|rail {rail}", ground))
        ports = {name: self._all_ports[f"{item}.{name}"] for name in part.get("ports", {})}
        for name, port in ports.items():
            minus = ground
            if port.isolated:
                minus = f"{item}|{name} minus"
                wiring.tied.append((minus, ground))
            for contact in port.minus:
                wiring.joined.append((f"{item}.{name}.{contact}", minus))
            for contact, rail in port.feeds.items():
                wiring.joined.append((f"{item}.{name}.{contact}", f"{item}|rail {rail}"))
            if port.has_power:
                wiring.ports[item, name] = (f"{item}.{name}.{next(iter(port.feeds))}", minus)
        for bridge in part.get("bridges", ()):
            if self._is_closed(item, bridge.get("when", {})):
                self._add_bridge(item, bridge, ports)
        for name, cell in part.get("cells", {}).items():
            if item not in self._off:
                self._add_cell(item, name, cell, ports)
        for rail, body in (part.get("rails") or {}).items():
            if isinstance(body, dict) and "load" in body and item not in self._off:
                self._add_load(item, rail, body, ports)

    def _is_closed(self, item: str, when: Tree) -> bool:
        """A condition on a setting that nobody stated counts as met."""
        for setting, wanted in when.items():
            value = self._settings.get(f"{item}.{setting}")
            if value is not None and value not in ([wanted] if isinstance(wanted, str) else wanted):
                return False
        return True

    def _add_bridge(self, item: str, bridge: Tree, ports: dict[str, PortReading]) -> None:
        near, far = f"{item}|rail {bridge['from']}", f"{item}|rail {bridge['to']}"
        fuse = _FUSE_OHMS if "fuse" in bridge else 0.0
        if bridge["by"] in ("wire", "switch"):
            self._wiring.wires.append(Wire(near, far, read_amount(bridge.get("resistance", "1 mohm")) + fuse))
            return
        near = self._put_before(near, fuse)
        if bridge["by"] == "diode":
            self._wiring.diodes.append(Diode(near, far, read_amount(bridge.get("drop", "0.4 V"))))
        else:
            negotiated = self._negotiate(item, bridge["to"], ports)
            self._add_regulator(near, far, f"{item}|ground", bridge, negotiated)

    def _put_before(self, node: str, ohms: float, lead: str | None = None, conductor: int | None = None) -> str:
        """A node behind a resistance; the same node where there is none."""
        if ohms == 0.0 and lead is None:
            return node
        inner = f"{node}+{len(self._wiring.wires)}"
        self._wiring.wires.append(Wire(node, inner, ohms, lead, conductor))
        self._wiring.tied.append((inner, node))
        return inner

    def _add_regulator(self, near: str, far: str, ground: str, body: Tree, negotiated: float | None) -> None:
        out = read_amount(body["out"])
        lowest = 1.0 if body.get("lifts") in ("true", "yes") else out + 0.5
        takes = read_range(body["takes"]) if "takes" in body else (lowest, 1e9)
        self._wiring.regulators.append(
            Regulator(
                input=near,
                output=far,
                ground=ground,
                out=out if negotiated is None else negotiated,
                limit=read_amount(body["max"]) if "max" in body else None,
                efficiency=read_amount(body.get("efficiency", "90 %")),
                takes=takes,
            )
        )

    def _add_cell(self, item: str, name: str, cell: Tree, ports: dict[str, PortReading]) -> None:
        rail = plus_rail(self._parts[item], cell.get("rail"))
        low, high = read_range(cell["volts"])
        volts = {
            "full": high,
            "typical": read_amount(cell["nominal"]) if "nominal" in cell else (low + high) / 2,
            "change": find_curve_volts(low, high, self._change_at, cell.get("curve")),
        }
        negotiated = self._negotiate(item, rail, ports)
        if negotiated is not None:
            volts = dict.fromkeys(POINTS, negotiated)
        ohms = 0.08 * (98 * 3600.0 / read_amount(cell["energy"]) if "energy" in cell else 1.0)
        ohms = read_amount(cell["resistance"]) if "resistance" in cell else ohms
        self._wiring.sources.append(Source(f"{item}.{name}", f"{item}|rail {rail}", f"{item}|ground", volts, ohms))

    def _add_load(self, item: str, rail: str, body: Tree, ports: dict[str, PortReading]) -> None:
        unit = unit_of(body["load"])
        unit = next(short for short in ("ohm", "W", "A") if unit.endswith(short))
        load = read_amount(body["load"])
        peak = read_amount(body["peak"]) if "peak" in body else (load / 1.5 if unit == "ohm" else load * 1.5)
        low = find_window_low(self._parts[item], ports, rail)
        node, ground = f"{item}|rail {rail}", f"{item}|ground"
        self._wiring.loads.append(Load(item, rail, node, ground, unit, load, peak, low))

    def _add_lead(self, label: str, lead: LeadReading) -> None:
        wiring = self._wiring
        wiring.leads[label] = [_split_place(place) for place in lead.plugged.values()]
        for index, one in enumerate(lead.conductors):
            near, far = (f"{label}:{end}.{contact}" for end, contact in (one.source, one.target))
            if "regulator" in one.body:
                ground = f"{label}:{self._find_ground(lead, one.target, one.body['regulator'])}"
                inner = self._put_before(near, one.ohms, label, index)
                self._add_regulator(inner, far, ground, one.body["regulator"], None)
            elif "diode" in one.body:
                inner = self._put_before(near, one.ohms, label, index)
                wiring.diodes.append(Diode(inner, far, read_amount(one.body["diode"])))
            else:
                wiring.wires.append(Wire(near, far, one.ohms, label, index))
        for end, place in lead.plugged.items():
            port = self._all_ports[place]
            if do_mate((port.connector, port.sex), lead.ends[end], self._shelf):
                self._add_mates(port, place, f"{label}:{end}")

    def _find_ground(self, lead: LeadReading, target: tuple[str, str], regulator: Tree) -> str:
        if "ground" in regulator:
            return str(regulator["ground"])
        end, contact = target
        for pinout in self._shelf.connectors[lead.ends[end][0]].get("usual", {}).values():
            if pinout.get(contact) == "plus":
                return f"{end}.{next(one for one, role in pinout.items() if role == 'minus')}"
        raise LookupError(end)

    def _add_mates(
        self, port: PortReading, place: str, other: str, far: tuple[Place, PortReading] | None = None
    ) -> None:
        connector = self._shelf.connectors[port.connector]
        ohms = read_amount(connector.get("contact", "10 mohm"))
        contacts = set(connector["contacts"])
        if far is not None:
            contacts &= set(self._shelf.connectors[far[1].connector]["contacts"])
        for contact in sorted(contacts):
            ports: list[tuple[Place, int]] = [(_split_place(place), 1)] if contact in port.feeds else []
            if far is not None and contact in far[1].feeds:
                ports.append((far[0], -1))
            self._wiring.mates.append(Mate(f"{other}.{contact}", f"{place}.{contact}", ohms, tuple(ports)))

    def _add_dock(self, first: str, second: str) -> None:
        near, far = self._all_ports[first], self._all_ports[second]
        items = [place.partition(".")[0] for place in (first, second)]
        if all(self._parts[item].get("chassis") == "minus" for item in items):
            self._wiring.wires.append(Wire(f"{items[0]}|ground", f"{items[1]}|ground", _BOND_OHMS))
        if do_mate((near.connector, near.sex), (far.connector, far.sex), self._shelf):
            self._add_mates(near, first, second, (_split_place(second), far))

    def _negotiate(self, item: str, rail: str, ports: dict[str, PortReading]) -> float | None:
        """The volts of a rail whose ports offer USB power delivery; None where none does."""
        offering = [f"{item}.{name}" for name, port in ports.items() if port.offers and rail in port.feeds.values()]
        if not offering:
            return None
        return max(self._settle_on(place) for place in offering)

    def _settle_on(self, place: str) -> float:
        port = self._all_ports[place]
        for label in sorted(self._leads):
            lead = self._leads[label]
            for end, own in lead.plugged.items():
                for other_end, other in lead.plugged.items():
                    wants = self._all_ports[other].wants
                    if own != place or other_end == end or wants is None:
                        continue
                    if self._carries_delivery(lead, end, other_end):
                        return max((offer for offer in port.offers if offer <= wants), default=_USB_VOLTS)
        return _USB_VOLTS

    def _carries_delivery(self, lead: LeadReading, end: str, other_end: str) -> bool:
        """Both ends speak usb-pd, the lead carries it, and a conductor joins their `cc`."""
        ends = {one: self._all_ports[lead.plugged[one]] for one in (end, other_end)}
        speak = all("usb-pd" in port.speaks for port in ends.values())
        carries = lead.carries is None or "usb-pd" in lead.carries
        wired = any(
            {one.source[0], one.target[0]} == {end, other_end} and one.source[1] == one.target[1] == "cc"
            for one in lead.conductors
        )
        return speak and carries and wired


def _split_place(place: str) -> Place:
    item, _, port = place.partition(".")
    return item, port
