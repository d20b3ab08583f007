"""The sources that the answer `power` stands for: battery, two batteries, mains or vehicle, in 12 V and in 24 V."""

from __future__ import annotations

from rigmint.start.draft import Draft
from rigmint.start.outlets import POWER, Outlets

_BATTERY_REMARK = "your battery: see what it lasts with `rigmint power`"


def lay_12v(draft: Draft) -> Outlets:
    """12 V as the camera class of that name takes it, raw from a battery of 14.4 V or regulated."""
    power = draft.answers.power
    # A head of the small class carries no more than its camera.
    rides = "base" if draft.answers.is_small and "head" in draft.items else None
    if power == "battery":
        draft.add(POWER, "battery", "battery-150wh-wedge", rides=rides, remark=_BATTERY_REMARK)
        draft.add(POWER, "plate", "plate-wedge-two-tap", rides=rides)
        draft.dock("battery.mount", "plate.battery")
        return Outlets(draft, ["plate.tap_1", "plate.tap_2"], rides)
    if power == "hotswap":
        _add_pair(draft, "battery-98wh-wedge", "plate-hotswap-wedge", rides)
        return Outlets(draft, ["plate.tap_1", "plate.out", "plate.tap_2"], rides)
    if power == "mains":
        draft.add(POWER, "supply", "supply-mains-12v")
        draft.add(POWER, "outputs", "breakout-studio-12v", rides="base")
        draft.lead(POWER, "P", "supply.out", "outputs.in", length=5.0)
        return Outlets(draft, ["outputs.out_1", "outputs.out_2", "outputs.out_3"])
    regulator = _add_vehicle(draft, "reg_12", "regulator-vehicle-12v")
    return Outlets(draft, [f"{regulator}.out_{number}" for number in (1, 2, 3)])


def lay_24v(draft: Draft) -> Outlets:
    """24 V: batteries of 26 V, or a supply."""
    power = draft.answers.power
    rides = "base" if draft.answers.has_remote_head else None
    if power == "battery":
        return lay_battery_24v(draft, rides)
    if power == "hotswap":
        _add_pair(draft, "battery-150wh-26v", "plate-hotswap-26v", rides)
        return Outlets(draft, ["plate.out_1", "plate.out_2"])
    if power == "mains":
        draft.add(POWER, "supply", "supply-mains-24v")
        return Outlets(draft, ["supply.out_1", "supply.out_2"])
    regulator = _add_vehicle(draft, "reg_24", "regulator-vehicle-24v")
    return Outlets(draft, [f"{regulator}.out_1", f"{regulator}.out_2"])


def lay_battery_24v(draft: Draft, rides: str | None, remark: str = _BATTERY_REMARK) -> Outlets:
    """A battery of 26 V on its plate."""
    draft.add(POWER, "battery", "battery-270wh-26v", rides=rides, remark=remark)
    draft.add(POWER, "plate", "plate-26v-two-out", rides=rides)
    draft.dock("battery.mount", "plate.battery")
    return Outlets(draft, ["plate.out_1", "plate.out_2"])


def _add_pair(draft: Draft, battery: str, plate: str, rides: str | None = None) -> None:
    """Two batteries that are changed one after the other while the rig stays on."""
    for side in ("a", "b"):
        draft.add(POWER, f"battery_{side}", battery, rides=rides, remark=_BATTERY_REMARK if side == "a" else None)
    draft.add(POWER, "plate", plate, rides=rides, remark="change one battery while the other carries on")
    for side in ("a", "b"):
        draft.dock(f"battery_{side}.mount", f"plate.battery_{side}")


def _add_vehicle(draft: Draft, name: str, part: str) -> str:
    draft.add(POWER, "car", "vehicle-12v")
    draft.add(POWER, name, part, rides="base")
    draft.lead(POWER, "P", "car.studs", f"{name}.in")
    return name
