"""The camera with its lens, and what carries them: cage, rods, head, carrier."""

from __future__ import annotations

from rigmint.start.answers import HANGING_PLACES
from rigmint.start.draft import Draft
from rigmint.start.people import CARRIER, OPERATOR

CAMERA = "camera and lens"
SUPPORT = "head and carrier"
LARGE_RODS = {"12v": "rods-15-light-pair", "24v": "rods-15-studio-pair", "small": "rods-15-light-pair"}
_LENSES = {
    ("12v", False): "lens-prime-compact",
    ("12v", True): "lens-zoom-compact",
    ("24v", False): "lens-prime-large",
    ("24v", True): "lens-zoom",
    ("small", False): "lens-still-manual",
}
_HEAVY_REMARK = "what a heavy camera takes: the pack in the handgrip feeds the head"


def add_camera(draft: Draft) -> None:
    """Camera, lens, cage, and rods where motors sit on them."""
    answers = draft.answers
    settings = {"format": answers.format}
    if answers.camera == "24v":
        # Its monitor outputs make a picture of their own, which every monitor and sender takes.
        settings |= {"monitor_format": f"1080p{answers.frames}", "rate": answers.frames}
    elif answers.camera == "12v" and answers.frames != "25":
        settings["rate"] = answers.frames
    remark = f"your camera: `rigmint parts camera` lists what there is for {answers.camera}"
    draft.add(CAMERA, "camera", _find_camera(draft), remark=remark, **settings)
    if _has_lens(draft):
        lens = _LENSES[answers.camera, "zoom" in answers.lens]
        draft.add(CAMERA, "lens", lens, remark="your lens, or the heaviest of the set")
        draft.dock("lens.mount", "camera.mount")
    if answers.is_small and not answers.lens:
        return
    draft.add(CAMERA, "cage", "cage-large" if answers.camera == "24v" else "cage-compact")
    draft.dock("camera.base", "cage.camera")
    if answers.lens:
        draft.add(CAMERA, "rods", LARGE_RODS[answers.camera])
        draft.dock("rods.block", "cage.rods")


def _find_camera(draft: Draft) -> str:
    answers = draft.answers
    if answers.is_small:
        return "camera-mirrorless" if answers.lens else "camera-small-usb"
    return "camera-large-24v" if answers.camera == "24v" else "camera-compact"


def _has_lens(draft: Draft) -> bool:
    return "mount" in draft.items["camera"].part.ports


def add_head(draft: Draft) -> None:
    """The head with what carries it; without one, what the camera stands on is the user's own."""
    answers = draft.answers
    if answers.head == "none":
        _stand_without_head(draft)
        return
    head = _find_head(draft)
    remark = _HEAVY_REMARK if head == "head-handheld-large" else "your head"
    draft.add(SUPPORT, "head", head, remark=remark, **_list_modes(draft, head))
    if head == "head-handheld-large":
        draft.add(SUPPORT, "pack", "battery-handgrip-43wh")
        draft.dock("pack.mount", "head.pack")
    draft.dock("cage.base" if "cage" in draft.items else "camera.base", "head.plate")
    _carry_head(draft)
    if answers.is_remote:
        for axis in ("pan", "tilt", "roll"):
            draft.own(axis, OPERATOR)
        if answers.on == "hand":
            draft.give(CARRIER, "head")
    else:
        draft.give(OPERATOR, "head")
        draft.own("pan", OPERATOR)
        draft.own("tilt", OPERATOR)
        draft.own("roll", "nobody")


def _find_head(draft: Draft) -> str:
    answers = draft.answers
    if answers.has_remote_head:
        return "head-vehicle-24v" if answers.on == "vehicle" else "head-remote-24v"
    if answers.is_small:
        return "head-handheld" if answers.lens else "head-small-usb"
    return "head-handheld-large"


def _list_modes(draft: Draft, head: str) -> dict[str, str]:
    """The settings of the head that decide who moves it."""
    answers = draft.answers
    if head == "head-small-usb":
        return {"mode": "locked" if answers.is_remote else "pan_tilt_follow", "dial": "none"}
    if answers.has_remote_head:
        return {"mode": "locked"}
    dial = answers.lens[0] if answers.lens_by == "dial" else "none"
    if answers.is_remote:
        return {"mode": "custom", "dial": dial, "follow_pan": "off", "follow_tilt": "off", "follow_roll": "off"}
    return {"mode": "pan_tilt_follow", "dial": dial}


def _carry_head(draft: Draft) -> None:
    on = draft.answers.on
    if on == "hand":
        draft.add(SUPPORT, "bar", "carrier-two-handgrips")
        draft.dock("head.base", "bar.head")
    elif on in ("tripod", "studio"):
        draft.add(SUPPORT, "tripod", "tripod-100")
        draft.add(SUPPORT, "bowl", "bowl-100-to-keyed")
        draft.dock("bowl.base", "tripod.head")
        draft.dock("head.base", "bowl.head")
    elif on == "vehicle":
        draft.add(SUPPORT, "mount", "vehicle-mount")
        if draft.items["head"].part.id == "generic/head-small-usb":
            draft.add(SUPPORT, "bowl", "bowl-150-to-keyed")
            draft.dock("bowl.base", "mount.head")
            draft.dock("head.base", "bowl.head")
        else:
            draft.add(SUPPORT, "arm", "isolating-arm")
            draft.dock("arm.base", "mount.head")
            draft.dock("head.base", "arm.head")
    elif on in HANGING_PLACES:
        # Rigging overhead and on cables is nobody's catalogue part: the keyed nose stands in for it.
        remark = None if on == "crane" else "the nose that your rigging ends in"
        draft.add(SUPPORT, "arm", "crane-arm", remark=remark)
        draft.dock("head.base", "arm.head")


def _stand_without_head(draft: Draft) -> None:
    if draft.answers.is_manned:
        draft.give(OPERATOR, "camera")
