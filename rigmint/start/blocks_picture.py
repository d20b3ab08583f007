"""Picture: on-board monitor, sender, the screens of those who look from afar."""

from __future__ import annotations

from rigmint.start.draft import AWAY, Draft
from rigmint.start.people import DIRECTOR, FIRST_AC, OPERATOR

PICTURE = "picture"
AFAR = "away from the rig"
_CHANNEL = 44
_SLOTS = {OPERATOR: "a", FIRST_AC: "b", DIRECTOR: "watch"}
_SCREENS = {OPERATOR: "mon_op", FIRST_AC: "mon_ac", DIRECTOR: "mon_dir"}
_WATCH = {OPERATOR: "operator", FIRST_AC: "focus", DIRECTOR: "watch"}
_MOST_SMALL_RECEIVERS = 2


def needs_sender(draft: Draft) -> bool:
    """Whether a picture goes over the air, or control comes back over the picture link."""
    return bool(draft.answers.by_radio)


def add_picture(draft: Draft) -> None:
    """Monitor at the camera, sender, screens away from it."""
    answers = draft.answers
    is_on_board = answers.is_manned and OPERATOR in answers.picture
    if answers.is_small:
        _add_small(draft, is_on_board)
    else:
        _add_serial(draft, is_on_board)


def _add_serial(draft: Draft, is_on_board: bool) -> None:
    answers = draft.answers
    source = "camera.sdi_2" if answers.camera == "24v" or answers.lines > 1080 else "camera.sdi_1"
    if is_on_board:
        draft.add(PICTURE, "monitor", "monitor-5in-loop", watch="operator", remark="your on-board monitor")
        draft.give(OPERATOR, "monitor")
        draft.lead(PICTURE, "S", source, "monitor.sdi_in")
        source = "monitor.sdi_out"
    if not needs_sender(draft):
        return
    settings = {"flip": "on"} if _hangs(draft) else {}
    on_base = answers.has_remote_head and answers.on != "vehicle"
    rides = "base" if on_base else None
    draft.add(PICTURE, "sender", "sender-5ghz-long", rides=rides, remark="your picture sender", **settings)
    if on_base:
        # Through the head's own slip ring, so that no picture lead crosses the pan joint.
        draft.lead(PICTURE, "S", source, "head.sdi_top")
        source = "head.sdi_base"
    draft.lead(PICTURE, "S", source, "sender.sdi_in")
    for role in answers.by_radio:
        screen = _SCREENS[role]
        part = "monitor-receiver"
        draft.add(AFAR, screen, part, watch=_WATCH[role], remark=f"what the {_say(role)} looks at", slot=_SLOTS[role])
        draft.give(role, screen)
    radios = tuple(f"{_SCREENS[role]}.radio" for role in answers.by_radio)
    draft.link("picture", ("sender.radio", *radios), _CHANNEL)


def _hangs(draft: Draft) -> bool:
    return draft.answers.stance == "underslung"


def _add_small(draft: Draft, is_on_board: bool) -> None:
    """HDMI: the camera has one output, the sender a loop."""
    answers = draft.answers
    source = "camera.hdmi"
    if needs_sender(draft):
        draft.add(PICTURE, "sender", "sender-hdmi-short", remark="your picture sender")
        draft.lead(PICTURE, "H", "sender.hdmi_in", source)
        source = "sender.hdmi_out"
    if is_on_board:
        draft.add(PICTURE, "monitor", "monitor-5in-usb", watch="operator", remark="your on-board monitor")
        draft.give(OPERATOR, "monitor")
        draft.lead(PICTURE, "H", source, "monitor.hdmi_in")
    radios = []
    for number, role in enumerate(answers.by_radio):
        screen = _SCREENS[role]
        remark = f"what the {_say(role)} looks at"
        draft.add(AFAR, screen, "monitor-7in-hdmi", rides=AWAY, watch=_WATCH[role], remark=remark)
        pack = draft.add(AFAR, f"pack_{screen[4:]}", "battery-45wh-slide", rides=AWAY)
        draft.dock(f"{pack}.mount", f"{screen}.pack")
        draft.give(role, screen)
        if number >= _MOST_SMALL_RECEIVERS:
            # The small sender holds two receivers: the third screen hangs on the second.
            second = _SCREENS[answers.by_radio[number - 1]]
            draft.lead(AFAR, "V", f"{second}.hdmi_out", f"{screen}.hdmi_in", part="lead-hdmi-long")
            continue
        receiver = draft.add(AFAR, f"rx_{screen[4:]}", "receiver-hdmi-short")
        bank = draft.add(AFAR, f"bank_{screen[4:]}", "battery-usb-72wh", rides=AWAY)
        draft.lead(AFAR, "V", f"{bank}.usb_2", f"{receiver}.usb")
        draft.lead(AFAR, "V", f"{receiver}.hdmi_out", f"{screen}.hdmi_in")
        radios.append(f"{receiver}.radio")
    if radios:
        draft.link("picture", ("sender.radio", *radios), _CHANNEL)


def _say(role: str) -> str:
    return role.replace("first_ac", "first AC")
