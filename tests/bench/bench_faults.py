"""Faults that the benchmark puts into some of its rigs, each a slip of prep: its name, and what makes it."""

from __future__ import annotations

from collections.abc import Callable

from bench_units import Sheet

_CROSSED = """{from: plate_a.tap_2, to: finder_x.dc_in, lead: {ends: {a: {connector: d-tap, sex: plug}, \
b: {connector: 0b-2, sex: plug}}, conductors: [{from: a.1, to: b.1, gauge: 20 AWG}, {from: a.2, to: b.2, gauge: 20 AWG}], \
length: 60 cm}}"""


def _cross_the_lamps_lead(sheet: Sheet) -> None:
    sheet.kit["lamp_a"] = "generic/light-on-board"
    sheet.leads["XA1"] = _CROSSED.replace("finder_x", "lamp_a")
    sheet.tied += [] if "XA1" in sheet.tied else ["XA1"]


def _join_the_dial(sheet: Sheet) -> None:
    sheet.settings["head_a.dial"] = "focus"


def _share_a_slot(sheet: Sheet) -> None:
    sheet.kit["mon_ac_a"] = "{part: generic/monitor-receiver, set: {slot: a}, for: focus}"
    if "mon_op_a" not in sheet.kit:
        sheet.kit["mon_op_a"] = "{part: generic/monitor-receiver, set: {slot: a}, for: operator}"
        sheet.links["picture_a"] = sheet.links["picture_a"].replace(
            "[sender_a.radio", "[sender_a.radio, mon_op_a.radio"
        )


def _go_too_far(sheet: Sheet) -> None:
    link = "lens_control_a"
    sheet.links[link] = sheet.links[link].replace(f"{sheet.distance} m", f"{sheet.chance.randrange(900, 2000, 50)} m")


def _feed_over_a_thin_lead(sheet: Sheet) -> None:
    length = sheet.chance.randrange(12, 25)
    sheet.leads["PA1"] = sheet.leads["PA1"].partition(", length")[0].rstrip("}") + f", length: {length} m}}"


def _leave_out_the_picture_lead(sheet: Sheet) -> None:
    del sheet.leads["SA1"]


def _wait_for_a_clock(sheet: Sheet) -> None:
    sheet.kit["clock_a"] = "{part: generic/timecode-box, set: {source: radio}}"


FAULTS: tuple[tuple[str, Callable[[Sheet], None]], ...] = (
    ("the lamp's lead is crossed", _cross_the_lamps_lead),
    ("the dial on the head drives focus too", _join_the_dial),
    ("two monitors share a slot", _share_a_slot),
    ("the hand unit is out of reach", _go_too_far),
    ("the trunk is long and thin", _feed_over_a_thin_lead),
    ("the picture lead is missing", _leave_out_the_picture_lead),
    ("the clock waits for a radio clock that is not there", _wait_for_a_clock),
)
