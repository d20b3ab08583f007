"""Lens drive: each motor that is there on the ring that it is fitted to, and what the two make of each other."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from enum import Enum

from rigmint.graph.signals import Connection
from rigmint.physics.gears import compute_ratio, compute_travel_time, do_mesh
from rigmint.rig.device import Drive, LensRing
from rigmint.rig.place import setting_place
from rigmint.rig.rig import Fitting, Item, Rig, Setup
from rigmint.study.conditions import Barred, judge_when
from rigmint.words import LENS_AXES

LEAST_TEETH, MOST_TEETH = 17, 80
"""Gears that a motor can take: below 17 teeth a spur gear of 20 degrees is undercut (general gear theory), above 80 at
module 0.8 it is wider than the motor's arm is long (common practice)."""
_DIRECTION = "direction"
_HANDS_ON = frozenset({"lens_motor", "accessory"})
"""Kinds over which a driver's bus goes on to the next motor."""
_NO_RING = LensRing("", None, None, None, None, None, None)
_NO_DRIVE = Drive(None, None, None, None, None, never_calibrates=False, calibrates={})


class Calibrates(Enum):
    """Whether a motor seeks the stops of its ring on its own."""

    YES = "yes"
    NO = "no"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Calibration:
    """How a motor finds the ends of its ring. `place` and `key`: what decides it where that is not known, or the
    setting that turned it on; `manual` is a value of that setting under which it does not seek the stops."""

    calibrates: Calibrates
    place: str
    key: str
    setting: tuple[str, str] | None = None
    """(item, setting) on which it hangs."""
    manual: str | None = None


@dataclass(frozen=True, slots=True)
class Direction:
    """Which way round a motor runs now, and did when its marks were set."""

    now: str
    marked: str
    by_setting: bool
    """Whether a setting of the motor says how it runs now; else the rig's `fitted`."""


@dataclass(frozen=True, slots=True)
class RingDrive:
    """A motor on a ring. Figures that a part does not state are None."""

    motor: str
    lens: str
    ring: LensRing
    drive: Drive
    calibration: Calibration
    direction: Direction | None
    """None where nobody says that marks were set, or which way round the motor runs."""

    @property
    def place(self) -> str:
        """The ring, `lens.focus`."""
        return f"{self.lens}.{self.ring.name}"

    @property
    def fitted(self) -> str:
        """The place of the entry that puts the motor there."""
        return f"{self.motor}.fitted"

    @property
    def unstated(self) -> tuple[str, str] | None:
        """(place, key) of the ring or the motor whose part states no figure of it at all."""
        if self.ring == replace(_NO_RING, name=self.ring.name):
            return self.place, f"rings.{self.ring.name}"
        return (self.motor, "drive") if self.drive == _NO_DRIVE else None

    @property
    def meshes(self) -> bool | None:
        """Whether the gears have one module."""
        if self.ring.module is None or self.drive.module is None:
            return None
        return do_mesh(self.ring.module, self.drive.module)

    @property
    def ratio(self) -> float | None:
        """Turns of the motor's gear for one of the ring."""
        if self.ring.teeth is None or self.drive.teeth is None:
            return None
        return compute_ratio(self.ring.teeth, self.drive.teeth)

    @property
    def seconds(self) -> float | None:
        """s from end to end."""
        if self.ratio is None or self.ring.turn is None or self.drive.speed is None:
            return None
        return compute_travel_time(self.ring.turn, self.ratio, self.drive.speed)

    @property
    def torque(self) -> float | None:
        """N*m that the motor brings to the ring."""
        return None if self.ratio is None or self.drive.torque is None else self.drive.torque * self.ratio

    @property
    def seeking_torque(self) -> float | None:
        """N*m with which the motor presses on the stops when it seeks them."""
        return None if self.ratio is None or self.drive.calibration is None else self.drive.calibration * self.ratio

    def with_gear(self, teeth: int) -> RingDrive:
        """The same with another gear on the motor."""
        return replace(self, drive=replace(self.drive, teeth=teeth))


def study_drives(rig: Rig, setup: Setup, connections: Iterable[Connection]) -> tuple[RingDrive, ...]:
    """Every motor that is there and on, whose lens is there, by name."""
    joined = _list_joined(rig, connections)
    return tuple(
        _build_drive(rig, setup, joined, rig.fitted[name])
        for name in sorted(rig.fitted)
        if name in setup.items - setup.off and rig.fitted[name].lens in setup.items
    )


def _build_drive(rig: Rig, setup: Setup, joined: Mapping[str, set[str]], fitting: Fitting) -> RingDrive:
    motor = rig.items[fitting.motor]
    drive = motor.part.drive or _NO_DRIVE
    ring = rig.items[fitting.lens].part.rings.get(fitting.ring, replace(_NO_RING, name=fitting.ring))
    return RingDrive(
        motor=motor.name,
        lens=fitting.lens,
        ring=ring,
        drive=drive,
        calibration=_judge_calibration(rig, setup, joined, motor, drive),
        direction=_find_direction(setup, motor, fitting),
    )


def _judge_calibration(
    rig: Rig, setup: Setup, joined: Mapping[str, set[str]], motor: Item, drive: Drive
) -> Calibration:
    """It seeks the stops where neither the motor nor a driver that turns it is set otherwise."""
    if drive.calibration is None and not drive.calibrates and not drive.never_calibrates:
        return Calibration(Calibrates.UNKNOWN, motor.name, "calibration")
    found = Calibration(Calibrates.YES, motor.name, "calibration")
    for item in (motor, *_list_drivers(rig, joined, motor)):
        one = _judge_item(setup, item)
        if one.calibrates is Calibrates.NO:
            return one
        if one.calibrates is Calibrates.UNKNOWN or (one.setting is not None and found.setting is None):
            found = one
    return found


def _judge_item(setup: Setup, item: Item) -> Calibration:
    drive = item.part.drive or _NO_DRIVE
    if drive.never_calibrates:
        return Calibration(Calibrates.NO, item.name, "calibration")
    conditions = judge_when(item, drive.calibrates, setup)
    if isinstance(conditions, Barred):
        return Calibration(Calibrates.NO, conditions.by, "calibration")
    if not drive.calibrates:
        return Calibration(Calibrates.YES, item.name, "calibration")
    name = next((one for one in drive.calibrates if setup.is_unknown(item.name, one)), next(iter(drive.calibrates)))
    return Calibration(
        Calibrates.UNKNOWN if setup.is_unknown(item.name, name) else Calibrates.YES,
        setting_place(item.name, name),
        name,
        (item.name, name),
        next((value for value in item.part.settings[name].values if value not in drive.calibrates[name]), None),
    )


def _list_drivers(rig: Rig, joined: Mapping[str, set[str]], motor: Item) -> list[Item]:
    """The motor drivers that leads join to a motor, over other motors and splitters of the same bus."""
    seen = {motor.name}
    front = [motor.name]
    while front:
        reached = {other for name in front for other in joined.get(name, ())} - seen
        seen |= reached
        front = [name for name in reached if rig.items[name].part.kind in _HANDS_ON]
    return [rig.items[name] for name in sorted(seen) if rig.items[name].part.kind == "motor_driver"]


def _list_joined(rig: Rig, connections: Iterable[Connection]) -> Mapping[str, set[str]]:
    """The items that something joins over which a protocol of lens axes passes."""
    joined: dict[str, set[str]] = defaultdict(set)
    for one in connections:
        if any(set(rig.protocols[name].carries) & set(LENS_AXES) for name in one.protocols):
            joined[one.first.item].add(one.second.item)
            joined[one.second.item].add(one.first.item)
    return joined


def _find_direction(setup: Setup, motor: Item, fitting: Fitting) -> Direction | None:
    """A setting that the rig states says how the motor runs now; then `fitted`; then the setting's default."""
    if fitting.marked is None:
        return None
    state = setup.settings.get((motor.name, _DIRECTION))
    if state is not None and state.value is not None and (state.stated != "default" or fitting.direction is None):
        return Direction(state.value, fitting.marked, by_setting=True)
    if fitting.direction is None:
        return None
    return Direction(fitting.direction, fitting.marked, by_setting=False)
