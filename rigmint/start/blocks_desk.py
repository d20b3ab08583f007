"""The operator's desk: wheels or a joystick, and the way from there to the head."""

from __future__ import annotations

from rigmint.start.blocks_lens import HANDS
from rigmint.start.draft import AWAY, Draft
from rigmint.start.people import OPERATOR
from rigmint.start.refusals import has_line

DESK = "desk"
_CHANNEL = 4


def add_desk(draft: Draft) -> None:
    """Nothing where nobody operates a head from afar."""
    answers = draft.answers
    if not answers.is_remote:
        return
    draft.give(OPERATOR, "desk")
    if answers.head == "wheels":
        _add_wheels(draft)
    elif answers.is_small:
        draft.add(HANDS, "desk", "desk-joystick-small", remark="your joystick")
        draft.link("head", ("head.radio", "desk.radio"), _CHANNEL)
    else:
        _add_joystick(draft)


def _find_lens_setting(draft: Draft) -> str:
    return "on" if draft.answers.lens_by == "desk" else "off"


def _add_wheels(draft: Draft) -> None:
    """The desk sits on the operator's monitor, which feeds it; it reaches the head by cable or by the picture link."""
    settings = {"lens_control": _find_lens_setting(draft), "mode_button": "off"}
    draft.add(HANDS, "desk", "desk-wheels", remark="your desk", **settings)
    draft.dock("desk.monitor_bracket", "mon_op.bracket")
    if has_line(draft.answers):
        length = max(5.0, round(draft.answers.distance * 1.2))
        draft.lead(DESK, "L", "desk.line", "head.line", length=length)
    else:
        draft.lead(DESK, "C", "sender.control", "head.control", part="lead-head-control")


def _add_joystick(draft: Draft) -> None:
    """By radio, on a pack of its own, so that no lead joins the operator's place to the head."""
    settings = {"lens_control": _find_lens_setting(draft), "mode_button": "off"}
    draft.add(HANDS, "desk", "desk-joystick", remark="your joystick", **settings)
    draft.add(DESK, "pack_desk", "battery-98wh-wedge", rides=AWAY)
    draft.add(DESK, "plate_desk", "plate-wedge-three-out", rides=AWAY)
    draft.dock("pack_desk.mount", "plate_desk.battery")
    draft.lead(DESK, "C", "plate_desk.out_1", "desk.dc_in")
    draft.link("head", ("head.radio", "desk.radio"), _CHANNEL)
