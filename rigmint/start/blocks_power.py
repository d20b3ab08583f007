"""Power: the source that was asked for, and from it each device in the voltage class that it lives on."""

from __future__ import annotations

from rigmint.start.draft import Draft
from rigmint.start.outlets import POWER, Outlets
from rigmint.start.sources import lay_12v, lay_24v, lay_battery_24v
from rigmint.start.usb_power import feed_coupler, feed_usb

_TWELVE = ("driver", "sender", "monitor")
"""Items that live on 12 V where they are there and have a `dc_in`."""


def add_power(draft: Draft) -> None:
    """Feed everything on the rig. What is away from it has brought its own."""
    answers = draft.answers
    if answers.has_remote_head:
        _feed_remote_head(draft)
    elif answers.camera == "24v":
        _feed_24v(draft)
    elif answers.camera == "12v":
        _feed_12v(draft)
    elif answers.lens:
        feed_coupler(draft)
    else:
        feed_usb(draft)


def _list_twelve(draft: Draft) -> list[str]:
    return [f"{name}.dc_in" for name in _TWELVE if name in draft.items]


def _feed_12v(draft: Draft) -> None:
    outlets = lay_12v(draft)
    outlets.feed("camera.dc_in")
    _feed_all(outlets, _list_twelve(draft))


def _feed_24v(draft: Draft) -> None:
    _feed_camera_side(draft, lay_24v(draft))


def _feed_camera_side(draft: Draft, source: Outlets) -> None:
    """The camera from 24 V, and what is around it from 12 V of the same source."""
    source.feed("camera.dc_in")
    ports = _list_twelve(draft)
    if ports:
        _feed_all(_find_12v(draft, source), ports)


def _feed_all(outlets: Outlets, ports: list[str]) -> None:
    outlets.spread(len(ports))
    for port in ports:
        outlets.feed(port)


def _find_12v(draft: Draft, source: Outlets, *, rides: str | None = None) -> Outlets:
    """12 V from a 24 V source: the plate's own tap, else a regulator."""
    if "plate" in draft.items and "tap" in draft.items["plate"].part.ports:
        return Outlets(draft, ["plate.tap"], rides)
    name = draft.add(POWER, "reg_12", "regulator-24-to-12", rides=rides)
    source.feed(f"{name}.in")
    return Outlets(draft, [f"{name}.out_1", f"{name}.out_2"], rides)


def _feed_remote_head(draft: Draft) -> None:
    """24 V into the head's base, and on through it: the camera from its top, the driver from its 12 V."""
    source = lay_24v(draft)
    on_base = "sender" in draft.items and draft.items["sender"].rides == "base"
    if draft.answers.power != "battery" and on_base:
        # One feed for head and sender: with a long return each, the shield of the picture lead between them would
        # carry its share.
        name = draft.add(POWER, "breakout_24", "breakout-24v", rides="base")
        source.feed(f"{name}.in")
        source = Outlets(draft, [f"{name}.out_1", f"{name}.out_2", f"{name}.out_3"], "base")
    source.feed("head.dc_in")
    if draft.answers.power == "vehicle" and draft.answers.camera == "24v":
        remark = "one regulator does not carry head and camera together"
        _feed_camera_side(draft, lay_battery_24v(draft, None, remark))
        return
    if draft.answers.camera == "24v":
        draft.lead(POWER, "P", "head.dc_top", "camera.dc_in")
    else:
        remark = "the head gives 24 V at its top, the camera takes 12 V"
        draft.add(POWER, "reg_top", "regulator-24-to-12", remark=remark)
        draft.lead(POWER, "P", "head.dc_top", "reg_top.in")
        draft.lead(POWER, "P", "reg_top.out_1", "camera.dc_in")
    at_top = [port for port in _list_twelve(draft) if not (on_base and port == "sender.dc_in")]
    _feed_all(Outlets(draft, ["head.aux_top"]), at_top)
    if on_base:
        _find_12v(draft, source, rides="base").feed("sender.dc_in")
