"""Rigs for tests in a few lines of Python, given as the text of a rig file, so that they go through the real reader.

    rig = (
        BenchRig("Saltmarsh, on the bench", on="hand")
        .put("battery", "generic/battery-98wh-wedge")
        .put("plate", "generic/plate-wedge-two-tap")
        .put("camera", "generic/camera-compact", set={"format": "1080p25"})
        .dock("battery.mount", "plate.battery")
        .lead("P1", "plate.tap_1", "camera.dc_in", part="generic/lead-tap-to-2pin", here=True)
        .setup("solo", who={"record": "operator"})
    )
    report = check_text(rig.text)
    assert_finds(report, "polarity:reversed", line=rig.line, at="camera.dc_in", cause="P1")

The keys are those of a rig file; `rigmint parts WORD` finds generic parts.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeAlias

from rigmint.library.document import Value
from rigmint.library.yaml_values import render_flow, render_key, render_scalar
from rigmint.testing.cases import MARK, BadCase, find_line

Content: TypeAlias = "str | int | float | bool | Mapping[str, Content] | Iterable[Content] | None"
"""What may stand in a rig file: texts, numbers, and mappings and lists of them."""
_LISTED = ("kit", "leads", "links", "setups")
"""Keys that hold one entry a line."""


@dataclass(frozen=True, slots=True)
class BenchRig:
    """A rig as far as it is written. Each method gives a new one, so that tests can start from one and go their ways.

    `here=True` marks the line of what is put, for `line`. What stands there by a name is not put again: `without` takes
    it out first. Raises BadCase for that, and where what is to be taken out is not there.
    """

    title: str
    on: str | None = None
    entries: Mapping[str, Value] = field(default_factory=dict)
    marked: tuple[str, ...] = ()
    """The entry that bears the mark, as key and name."""

    def put(self, item: str, part: str, *, here: bool = False, **keys: Content) -> BenchRig:
        """An item of a part: `put("motor", "generic/lens-motor", set={"axis": "focus"})`."""
        entry: dict[str, Content] = {"part": part, **keys}
        return self._add("kit", item, entry if keys else part, here=here)

    def dock(self, port: str, other: str) -> BenchRig:
        """Two ports that mate directly."""
        held = self.entries.get("docks", [])
        return self.say(docks=[*(held if isinstance(held, list) else []), f"{port} > {other}"])

    def lead(
        self, label: str, start: str, end: str, *, part: str | None = None, here: bool = False, **keys: Content
    ) -> BenchRig:
        """A lead from a port to another; of a part, or one that nobody described."""
        described: dict[str, Content] = {"from": start, "to": end, **keys}
        if part is not None:
            described = {"part": part, **described}
        return self._add("leads", label, described if len(described) > 2 else f"{start} > {end}", here=here)

    def link(self, name: str, *radios: str, here: bool = False, **keys: Content) -> BenchRig:
        """A radio link between radios, the hub first."""
        entry: dict[str, Content] = {"between": radios, **keys}
        return self._add("links", name, entry, here=here)

    def setup(self, name: str, *, here: bool = False, **keys: Content) -> BenchRig:
        """A way of flying it: `setup("solo", who={"focus": "operator"}, out=["hand"])`."""
        return self._add("setups", name, keys, here=here)

    def say(self, **keys: Content) -> BenchRig:
        """Further keys at the top, each as a whole: `say(region="eu", needs={"runtime": "60 min"})`."""
        listed = [key for key in keys if key in _LISTED]
        if listed:
            msg = f"`{listed[0]}` has a method of its own, an entry at a time"
            raise BadCase(msg)
        return replace(self, entries={**self.entries, **{key: _plain(value) for key, value in keys.items()}})

    def without(self, *names: str) -> BenchRig:
        """The rig without the items, leads, links or setups named."""
        entries = dict(self.entries)
        for name in names:
            key = next((key for key in _LISTED if name in _as_mapping(entries.get(key))), None)
            if key is None:
                msg = f"there is no `{name}` in the rig to take out"
                raise BadCase(msg)
            held = _as_mapping(entries[key])
            entries[key] = {other: value for other, value in held.items() if other != name}
        return replace(self, entries=entries)

    @property
    def text(self) -> str:
        """The text of its rig file."""
        lines = ["rigmint: 1", f"rig: {render_scalar(self.title, in_flow=False)}"]
        lines += [f"on: {render_scalar(self.on, in_flow=False)}"] if self.on is not None else []
        for key, value in self.entries.items():
            if key not in _LISTED:
                lines.append(f"{render_key(key, in_flow=False)}: {_render(value)}")
            elif value:
                lines += [f"{key}:", *(self._lay(key, name, entry) for name, entry in _as_mapping(value).items())]
        return "\n".join(lines) + "\n"

    @property
    def line(self) -> int:
        """The number of the line that bears the mark. Raises BadCase where none does."""
        return find_line(self.text)

    def _add(self, key: str, name: str, value: Content, *, here: bool) -> BenchRig:
        held = _as_mapping(self.entries.get(key))
        if name in held:
            msg = f"`{name}` stands under `{key}` already"
            raise BadCase(msg)
        marked = (key, name) if here else self.marked
        return replace(self, entries={**self.entries, key: {**held, name: _plain(value)}}, marked=marked)

    def _lay(self, key: str, name: str, value: Value) -> str:
        mark = f"  {MARK}" if self.marked == (key, name) else ""
        return f"  {render_key(name, in_flow=False)}: {_render(value)}{mark}"


def start_powered() -> BenchRig:
    """A small sound rig: a battery on its plate, and a compact camera with a lens, fed from a tap."""
    return (
        BenchRig("Saltmarsh, on the bench", on="tripod")
        .put("battery", "generic/battery-98wh-wedge")
        .put("plate", "generic/plate-wedge-two-tap")
        .put("camera", "generic/camera-compact")
        .put("lens", "generic/lens-prime-compact")
        .dock("battery.mount", "plate.battery")
        .dock("lens.mount", "camera.mount")
        .lead("P1", "plate.tap_1", "camera.dc_in", part="generic/lead-tap-to-2pin")
    )


def start_driven() -> BenchRig:
    """The same, and a hand unit that has the focus by radio, through a driver with one motor on the lens."""
    return (
        start_powered()
        .put("driver", "generic/motor-driver-three")
        .put("motor", "generic/lens-motor", set={"axis": "focus"})
        .put("hand", "generic/hand-unit-three-axis")
        .lead("P2", "plate.tap_2", "driver.dc_in", part="generic/lead-tap-to-2pin")
        .lead("M1", "driver.motor_1", "motor.bus_1", part="generic/lead-bus")
        .lead("R1", "driver.run", "camera.remote", part="generic/lead-run")
        .link("lens_control", "driver.radio", "hand.radio", distance="10 m", channel=3)
        .say(region="eu", where="open", fitted={"motor": "lens.focus"}, crew={"first_ac": ["hand"]})
        .setup("two_up", who={"focus": "first_ac", "record": "first_ac"})
    )


def _plain(value: Content) -> Value:
    if isinstance(value, Mapping):
        return {str(key): _plain(item) for key, item in value.items()}
    if value is None or isinstance(value, (str, int, float)):
        return value
    return [_plain(item) for item in value]


def _render(value: Value) -> str:
    return render_flow(value) if isinstance(value, (dict, list)) else render_scalar(value, in_flow=False)


def _as_mapping(value: Value) -> dict[str, Value]:
    return value if isinstance(value, dict) else {}
