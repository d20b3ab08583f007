"""Rigs by seed: batteries, plates, breakouts, regulators, diodes, switches, long leads, shields, USB with and without
power delivery, a second source, items that are off. Only what can be written in a rig file, so that both sides read
the same text."""

from __future__ import annotations

from pathlib import Path
from random import Random
from typing import Any

from ruamel.yaml import YAML

Tree = dict[str, Any]

_CLASSES = {
    12: {"volts": "12.0 to 16.8 V", "nominal": "14.4 V", "plate": "plate-wedge"},
    26: {"volts": "21.0 to 29.4 V", "nominal": "25.2 V", "plate": "plate-wedge-26v"},
}
_OUTPUTS: dict[int, tuple[Tree, ...]] = {
    12: ({"connector": "d-tap", "pins": "plus-first"}, {"connector": "0b-2", "pins": "minus-first"}),
    26: ({"connector": "3pin-24v", "pins": "minus-first"}, {"connector": "xlr4", "pins": {"1": "minus", "4": "plus"}}),
    5: ({"connector": "usb-c", "pins": "power"}, {"connector": "usb-a", "pins": "power"}),
}
_INPUTS: dict[int, tuple[Tree, ...]] = {
    12: ({"connector": "0b-2", "pins": "minus-first"}, {"connector": "1b-4", "pins": "two-minus-two-plus"}),
    26: ({"connector": "3pin-24v", "pins": "minus-first"},),
    5: ({"connector": "usb-c", "pins": "power-and-data"}, {"connector": "usb-micro", "pins": "power"}),
}
_WORKS = {12: "10.5 to 17 V", 26: "20 to 34 V", 5: "4.5 to 5.5 V"}
_SHIELDED: Tree = {"connector": "bnc", "sex": "socket", "pins": "video", "speaks": ["sdi-3g"]}


def write_rig(seed: int, folder: Path) -> Path:
    """A rig file with its library and parts; the path of the rig."""
    maker = _Maker(Random(seed))
    rig = maker.make(seed)
    (folder / "parts").mkdir(parents=True)
    _write(folder / "rigmint.yaml", maker.make_library())
    _write(folder / "parts" / "all.part.yaml", {"parts": maker.parts})
    path = folder / "random.rig.yaml"
    _write(path, rig)
    return path


def _write(path: Path, tree: Tree) -> None:
    yaml = YAML(typ="safe")
    yaml.representer.ignore_aliases = lambda _: True  # the format has no anchors
    with path.open("w", encoding="utf-8") as file:
        yaml.dump(tree, file)


class _Maker:
    """One rig in the making. `free`: outputs that nothing is plugged into, as (place, volts class, connector)."""

    def __init__(self, random: Random) -> None:
        self.random = random
        self.parts: list[Tree] = []
        self.kit: dict[str, Any] = {}
        self.docks: list[str] = []
        self.leads: dict[str, Any] = {}
        self.free: list[tuple[str, int, str]] = []
        self.shields: list[str] = []
        self.switches: list[str] = []

    def make(self, seed: int) -> Tree:
        """The rig's tree."""
        self._add_battery_and_plate(self.random.choice((12, 12, 26)))
        for _ in range(self.random.randint(2, 18)):
            if not self.free:
                break
            adders = [self._add_device] * 5 + [self._add_breakout] * 2 + [self._add_regulator, self._add_own_battery]
            self.random.choice(adders)()
        if self.random.random() < 0.4:
            self._add_delivery()
        self._join_shields()
        return {
            "rigmint": 1,
            "rig": f"Random {seed}",
            "kit": self.kit,
            "docks": self.docks,
            "leads": self.leads,
            "settings": {one: self.random.choice(("on", "off")) for one in self.switches if self._chance(0.6)},
            "setups": {"one": {}, "two": self._make_setup()},
        }

    def make_library(self) -> Tree:
        """The library, at times with a warm day or another change point."""
        power = {"wire_temperature": "40 degC", "change_at": "25 %", "peaks": 3} if self._chance(0.3) else {}
        return {"rigmint_library": 1, "title": "Kestrel Hire", "parts": ["parts"], "power": power}

    def _make_setup(self) -> Tree:
        items = [name for name in self.kit if name.startswith(("device", "cell"))]
        off = self.random.sample(items, min(len(items), self.random.randint(0, 2)))
        labels = list(self.leads)
        return {
            "off": off,
            "unplugged": self.random.sample(labels, min(len(labels), self.random.randint(0, 2))),
            "set": {one: "off" for one in self.switches if self._chance(0.5)},
        }

    def _chance(self, share: float) -> bool:
        return self.random.random() < share

    def _between(self, low: float, high: float, unit: str) -> str:
        return f"{self.random.uniform(low, high):.3g} {unit}"

    def _add_item(self, stem: str, part: Tree) -> str:
        name = f"{stem}_{len(self.kit)}"
        self.parts.append({"rigmint_part": 1, "id": f"house/{name}", "name": name, **part})
        self.kit[name] = f"house/{name}"
        return name

    def _make_cell(self, volts: int, rail: str) -> Tree:
        cell: Tree = {"rail": rail, "volts": _CLASSES[volts]["volts"], "energy": self._between(40, 200, "Wh")}
        if self._chance(0.7):
            cell["nominal"] = _CLASSES[volts]["nominal"]
        if self._chance(0.6):
            cell["resistance"] = self._between(30, 150, "mohm")
        return cell

    def _add_battery_and_plate(self, volts: int) -> None:
        plate = _CLASSES[volts]["plate"]
        count = 2 if self._chance(0.35) else 1
        ports: Tree = {
            f"battery_{n}": {"connector": plate, "sex": "socket", "pins": "power", "rail": f"side_{n}"}
            for n in range(count)
        }
        drop = self._between(0.05, 0.4, "V")
        bridges: list[Tree] = [{"from": f"side_{n}", "to": "main", "by": "diode", "drop": drop} for n in range(count)]
        if count == 1:
            bridges = [{"from": "side_0", "to": "main", "by": "wire"}]
            if self._chance(0.5):
                bridges[0] |= {"resistance": self._between(2, 20, "mohm"), "fuse": self._between(10, 30, "A")}
        rails: Tree = {"main": {}} | {f"side_{n}": {} for n in range(count)}
        ports |= self._make_outputs(volts, self.random.randint(2, 5), rails, bridges)
        name = self._add_item("plate", {"kind": "plate", "ports": ports, "rails": rails, "bridges": bridges})
        self._free_outputs(name, ports, volts)
        for number in range(count):
            port = {"connector": plate, "sex": "plug", "pins": "power", "role": "out"}
            cells = {"pack": self._make_cell(volts, "main")}
            battery = self._add_item("battery", {"kind": "battery", "ports": {"mount": port}, "cells": cells})
            self.docks.append(f"{battery}.mount > {name}.battery_{number}")

    def _make_outputs(self, volts: int, count: int, rails: Tree, bridges: list[Tree]) -> Tree:
        ports = {}
        for number in range(count):
            rail = "main"
            if self._chance(0.2):
                rail = f"out_{number}"
                rails[rail] = {}
                bridge: Tree = {"from": "main", "to": rail, "by": "wire", "fuse": {"amps": "7 A", "inside": True}}
                if self._chance(0.3):
                    bridge = {"from": "main", "to": rail, "by": "diode", "drop": "0.3 V"}
                bridges.append(bridge)
            port = {**self.random.choice(_OUTPUTS[volts]), "sex": "socket", "rail": rail, "role": "out"}
            ports[f"out_{number}"] = port
        return ports

    def _free_outputs(self, item: str, ports: Tree, volts: int) -> None:
        self.free += [
            (f"{item}.{name}", volts, port["connector"]) for name, port in ports.items() if name.startswith("out_")
        ]

    def _take_output(self, *volts: int) -> tuple[str, int, str] | None:
        fitting = [one for one in self.free if one[1] in volts]
        if not fitting:
            return None
        taken = self.random.choice(fitting)
        self.free.remove(taken)
        return taken

    def _plug(self, output: tuple[str, int, str], item: str, port: str, body: Tree) -> None:
        """A power lead, in one line or described."""
        place, volts, connector = output
        label = f"P{len(self.leads)}"
        if self._chance(0.35) and (connector == body["connector"] or volts != 5):
            self.leads[label] = f"{place} > {item}.{port}"
            if self._chance(0.4):
                self.leads[label] = {"from": place, "to": f"{item}.{port}", "length": self._between(0.2, 6, "m")}
            return
        near = next(one for one in _OUTPUTS[volts] if one["connector"] == connector)
        pairs = self._pair_contacts(near, body)
        size = self._choose_size()
        conductors: list[Tree] = [{"from": f"a.{one}", "to": f"b.{other}", **size} for one, other in pairs]
        plus = next(one for one in conductors if one["from"] == f"a.{self._contact(near, 'plus')}")
        if self._chance(0.15):
            plus["fuse"] = "10 A"
        elif self._chance(0.15) and volts != 5:
            plus["diode"] = "0.35 V"
        lead = {
            "ends": {
                "a": {"connector": connector, "sex": "plug"},
                "b": {"connector": body["connector"], "sex": "plug"},
            },
            "conductors": conductors,
        }
        if self._chance(0.9):
            lead["length"] = self._between(0.15, 4, "m")
        self.leads[label] = {"from": place, "to": f"{item}.{port}", "lead": lead}

    def _choose_size(self) -> Tree:
        if self._chance(0.3):
            return {"area": f"{self.random.choice((0.5, 0.75, 1.0, 1.2, 1.5, 2.5))} mm2"}
        return {} if self._chance(0.1) else {"gauge": f"{self.random.choice((16, 18, 20, 22, 24))} AWG"}

    def _pair_contacts(self, near: Tree, far: Tree) -> list[tuple[str, str]]:
        pairs = []
        for role in ("plus", "minus"):
            ones, others = self._contacts(near, role), self._contacts(far, role)
            pairs += [(ones[0], other) for other in others[: self.random.randint(1, len(others))]]
        return pairs

    def _contact(self, body: Tree, role: str) -> str:
        return self._contacts(body, role)[0]

    def _contacts(self, body: Tree, role: str) -> list[str]:
        usual = {
            "plus-first": {"1": "plus", "2": "minus"},
            "minus-first": {"1": "minus", "2": "plus"},
            "two-minus-two-plus": {"1": "minus", "2": "minus", "3": "plus", "4": "plus"},
            "power": {"vbus": "plus", "gnd": "minus"},
            "power-and-data": {"vbus": "plus", "gnd": "minus"},
        }
        pins = body["pins"] if isinstance(body["pins"], dict) else usual[body["pins"]]
        return [contact for contact, what in pins.items() if what == role]

    def _make_input(self, volts: int, rail: str) -> Tree:
        body: Tree = {**self.random.choice(_INPUTS[volts]), "sex": "socket", "rail": rail, "role": "in"}
        if self._chance(0.7):
            body["works"] = _WORKS[volts]
        return body

    def _make_rail(self, share: float = 1.0) -> Tree:
        kind = self.random.choice(("W", "W", "W", "A", "ohm"))
        low, high = {"W": (0.5, 18 * share), "A": (0.05, 1.0 * share), "ohm": (12 / share, 300)}[kind]
        rail = {"load": self._between(low, high, kind)}
        if kind == "W" and self._chance(0.6):
            rail["peak"] = self._between(high, 2 * high, kind)
        return rail

    def _add_device(self) -> None:
        """A load behind a wire, a diode or a switch; at times with a 5 V rail of its own, and a picture output."""
        output = self._take_output(12, 26, 5)
        if output is None:
            return
        volts = output[1]
        rails: Tree = {"main": self._make_rail(0.3 if volts == 5 else 1.0)}
        bridges: list[Tree] = []
        ports: Tree = {"dc": self._make_input(volts, "main")}
        part: Tree = {"kind": self.random.choice(("camera", "monitor", "sender")), "rails": rails, "bridges": bridges}
        how = self.random.random()
        if how < 0.25:
            rails["dc"] = {}
            ports["dc"]["rail"] = "dc"
            bridges.append({"from": "dc", "to": "main", "by": "diode", "drop": "0.3 V"})
            if self._chance(0.5):
                rails["spare"] = {}
                ports["spare"] = self._make_input(volts, "spare")
                bridges.append({"from": "spare", "to": "main", "by": "diode"})
        elif how < 0.45:
            rails["aux"] = self._make_rail(0.3)
            part["settings"] = {"aux": {"values": ["on", "off"]}}
            bridges.append({"from": "main", "to": "aux", "by": "switch", "when": {"aux": "on"}})
        if volts != 5 and self._chance(0.4):
            rails["five"] = self._make_rail(0.2) if self._chance(0.5) else {}
            bridges.append(self._make_regulator("main", "five", 5.1))
            ports |= {
                f"out_{n}": {**_OUTPUTS[5][n % 2], "sex": "socket", "rail": "five", "role": "out"} for n in range(2)
            }
        if self._chance(0.5):
            ports |= {"sdi_1": dict(_SHIELDED), "sdi_2": dict(_SHIELDED)}
        part["ports"] = ports
        name = self._add_item("device", part)
        if "settings" in part:
            self.switches.append(f"{name}.aux")
        self.shields += [f"{name}.{port}" for port in ports if port.startswith("sdi")]
        self._free_outputs(name, ports, 5)
        self._plug(output, name, "dc", ports["dc"])
        if "spare" in ports and self._chance(0.6):
            other = self._take_output(volts)
            if other is not None:
                self._plug(other, name, "spare", ports["spare"])

    def _make_regulator(self, source: str, target: str, out: float) -> Tree:
        body: Tree = {"from": source, "to": target, "by": "regulator", "out": f"{out} V", "blocks": True}
        if self._chance(0.8):
            body["max"] = self._between(0.5, 6, "A")
        if self._chance(0.7):
            body["takes"] = f"{self.random.choice((8, 9, 10, 12.5)) if out < 8 else out + 1} to 36 V"
        if self._chance(0.6):
            body["efficiency"] = self._between(75, 97, "%")
        return body

    def _add_breakout(self) -> None:
        output = self._take_output(12, 26)
        if output is None:
            return
        rails: Tree = {"main": {}}
        bridges: list[Tree] = []
        into = {**self.random.choice(_INPUTS[output[1]]), "sex": "socket", "rail": "main"}
        ports = {"dc": into} | self._make_outputs(output[1], self.random.randint(2, 4), rails, bridges)
        name = self._add_item("breakout", {"kind": "breakout", "ports": ports, "rails": rails, "bridges": bridges})
        self._free_outputs(name, ports, output[1])
        self._plug(output, name, "dc", into)

    def _add_regulator(self) -> None:
        """From 26 V to 12 V, or from 12 V to USB."""
        output = self._take_output(26, 12)
        if output is None:
            return
        down = {26: 12, 12: 5}[output[1]]
        into = self._make_input(output[1], "raw")
        rails: Tree = {"raw": {}, "main": {}}
        bridges = [self._make_regulator("raw", "main", {12: 13.0, 5: 5.1}[down])]
        ports = {"dc": into} | self._make_outputs(down, 3, rails, bridges)
        chassis = {"chassis": "minus"} if self._chance(0.3) else {}
        name = self._add_item(
            "regulator", {"kind": "regulator", "ports": ports, "rails": rails, "bridges": bridges, **chassis}
        )
        self._free_outputs(name, ports, down)
        self._plug(output, name, "dc", into)

    def _add_own_battery(self) -> None:
        """A device with a pack of its own, its input joined to that by diodes; some are tied to earth."""
        output = self._take_output(12)
        if output is None:
            return
        into = self._make_input(12, "dc")
        part = {
            "kind": "monitor",
            "ports": {"dc": into, "sdi": dict(_SHIELDED)},
            "rails": {"dc": {}, "pack": {}, "main": self._make_rail()},
            "bridges": [
                {"from": "dc", "to": "main", "by": "diode", "drop": "0.3 V"},
                {"from": "pack", "to": "main", "by": "diode", "drop": "0.05 V"},
            ],
            "cells": {"own": self._make_cell(12, "pack")},
        }
        if self._chance(0.3):
            part["chassis"] = "earth"
        name = self._add_item("cell", part)
        self.shields.append(f"{name}.sdi")
        self._plug(output, name, "dc", into)

    def _add_delivery(self) -> None:
        """A USB bank that negotiates with a lamp, over a lead that carries it or does not."""
        speaks = ["usb-pd"]
        bank = self._add_item(
            "bank",
            {
                "kind": "battery",
                "ports": {
                    "usb": {
                        "connector": "usb-c",
                        "sex": "socket",
                        "pins": "power-delivery",
                        "rail": "bus",
                        "role": "out",
                        "speaks": speaks,
                        "offers": ["5 V", "9 V", "15 V", "20 V"],
                    },
                },
                "rails": {"main": {}, "bus": {}},
                "bridges": [self._make_regulator("main", "bus", 5.0) | {"takes": "9 to 18 V"}],
                "cells": {"pack": self._make_cell(12, "main")},
            },
        )
        wants = self.random.choice((9, 12, 15))
        usb = {
            "connector": "usb-c",
            "sex": "socket",
            "pins": "power-delivery",
            "role": "in",
            "speaks": speaks,
            "wants": f"{wants} V",
            "works": "4.5 to 16 V",
        }
        lamp = self._add_item("device", {"kind": "light", "ports": {"usb": usb}, "rails": {"main": self._make_rail()}})
        lead = {
            "ends": {"a": {"connector": "usb-c", "sex": "plug"}, "b": {"connector": "usb-c", "sex": "plug"}},
            "conductors": "straight",
            "carries": speaks if self._chance(0.6) else ["hdmi"],
        }
        self.leads[f"U{len(self.leads)}"] = {"from": f"{bank}.usb", "to": f"{lamp}.usb", "lead": lead}

    def _join_shields(self) -> None:
        self.random.shuffle(self.shields)
        while len(self.shields) > 1:
            one, other = self.shields.pop(), self.shields.pop()
            if one.partition(".")[0] != other.partition(".")[0] and self._chance(0.7):
                self.leads[f"S{len(self.leads)}"] = {"from": one, "to": other, "length": self._between(0.3, 10, "m")}
