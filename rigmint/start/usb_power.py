"""Power of the small class: 5 V over USB, 8 V into a camera's battery bay, 12 V where a lens driver asks for it."""

from __future__ import annotations

from rigmint.start.draft import Draft
from rigmint.start.outlets import POWER, Outlets
from rigmint.start.sources import lay_12v

_USB_ITEMS = ("head", "camera", "sender", "monitor")
"""Heaviest first: the strong outlet of a bank and the weak one take turns."""
_FIVE_REMARK = "one heavy and one light load each"


def feed_usb(draft: Draft) -> None:
    """Everything from USB: banks, mains supplies, or regulators behind a 12 V source."""
    ports = [f"{name}.usb" for name in _USB_ITEMS if name in draft.items]
    if draft.answers.power in ("battery", "mains"):
        _feed_from_usb(draft, ports)
    else:
        _feed_through_regulators(draft, lay_12v(draft), ports)


def feed_coupler(draft: Draft) -> None:
    """A camera with a coupler, and beside it USB and a driver of 12 V where they are there."""
    ports = [f"{name}.usb" for name in ("sender", "monitor") if name in draft.items]
    has_driver = "driver" in draft.items
    power = draft.answers.power
    if power == "mains":
        draft.add(POWER, "supply_8v", "supply-mains-8v")
        draft.lead(POWER, "P", "supply_8v.out", "camera.battery_bay", length=2.0)
        if has_driver:
            draft.add(POWER, "supply", "supply-mains-12v")
            draft.lead(POWER, "P", "supply.out", "driver.dc_in")
        _feed_from_usb(draft, ports)
    elif power == "battery" and not has_driver:
        draft.add(POWER, "battery", "battery-45wh-slide", remark="your battery: see what it lasts with `rigmint power`")
        draft.add(POWER, "plate", "plate-slide-7v")
        draft.dock("battery.mount", "plate.battery")
        draft.lead(POWER, "P", "plate.out", "camera.battery_bay")
        _feed_from_usb(draft, ports)
    elif power == "vehicle":
        outlets = lay_12v(draft)
        draft.add(POWER, "reg_8", "regulator-12-to-8")
        outlets.feed("reg_8.in")
        draft.lead(POWER, "P", "reg_8.out", "camera.battery_bay")
        _feed_rest(draft, outlets, ports, has_driver=has_driver)
    else:
        outlets = lay_12v(draft)
        outlets.feed("camera.battery_bay")  # the lead from the tap holds a regulator of 8 V
        _feed_rest(draft, outlets, ports, has_driver=has_driver)


def _feed_rest(draft: Draft, outlets: Outlets, ports: list[str], *, has_driver: bool) -> None:
    if not has_driver:
        _feed_through_regulators(draft, outlets, ports)
        return
    outlets.spread(1 + bool(ports))
    outlets.feed("driver.dc_in")
    _feed_through_regulators(draft, outlets, ports)


def _feed_from_usb(draft: Draft, ports: list[str]) -> None:
    if draft.answers.power == "mains":
        for number, port in enumerate(ports, start=1):
            supply = draft.add(POWER, f"supply_{number}", "supply-mains-usb")
            draft.lead(POWER, "U", f"{supply}.usb", port)
        return
    for number, port in enumerate(ports):
        bank = f"bank_{number // 2 + 1}"
        if bank not in draft.items:
            draft.add(POWER, bank, "battery-usb-72wh", remark=_FIVE_REMARK)
        draft.lead(POWER, "U", f"{bank}.usb_{number % 2 + 1}", port)


def _feed_through_regulators(draft: Draft, outlets: Outlets, ports: list[str]) -> None:
    """Two USB outputs behind each regulator."""
    outlets.spread((len(ports) + 1) // 2)
    for number, port in enumerate(ports):
        regulator = f"reg_5v_{number // 2 + 1}"
        if regulator not in draft.items:
            draft.add(POWER, regulator, "regulator-12-to-5-usb", rides="base")
            outlets.feed(f"{regulator}.in")
        draft.lead(POWER, "U", f"{regulator}.usb_{number % 2 + 1}", port)
