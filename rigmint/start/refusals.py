"""Which answers make no sense together, each with a sentence that says why and what to say instead."""

from __future__ import annotations

from collections.abc import Callable

from rigmint.start.answers import ATTENDED_PLACES, Answers, Refusal
from rigmint.start.people import find_roles

DESK_RINGS = {"wheels": ("focus", "iris"), "stick": ("focus", "zoom")}
"""The rings that a desk's own controls have, over a line or the head's radio."""
LINK_RINGS = ("focus", "iris", "zoom")
MOST_PEERS_SMALL = 2
"""Receivers that the small sender holds."""
LINE_METRES = 30.0
"""Up to here a desk with wheels talks to a large remote head by cable, beyond it over the picture link."""


def refuse_nonsense(answers: Answers) -> None:
    """Raise Refusal for the first thing that makes no sense."""
    for find in _CHECKS:
        says = find(answers)
        if says is not None:
            raise Refusal(says)
    find_roles(answers)


def has_line(answers: Answers) -> bool:
    """Whether the desk with wheels is joined to the head by cable."""
    return answers.head == "wheels" and answers.has_remote_head and answers.distance <= LINE_METRES


def _judge_power(answers: Answers) -> str | None:
    if answers.power == "vehicle" and answers.on != "vehicle":
        return f"A rig on `{answers.on}` takes no power from a vehicle: say `--power battery`, or `--on vehicle`."
    if answers.power == "mains" and answers.on in ("vehicle", "cable"):
        return f"No mains reaches a rig on a {answers.on}: say `--power battery`, or `vehicle` on a vehicle."
    return None


def _judge_head(answers: Answers) -> str | None:
    if answers.head == "follow" and answers.on != "hand":
        return (
            f"Follow mode follows the hands that carry the head, and on `{answers.on}` nobody carries it: say"
            " `--head wheels`, `stick` or `none`."
        )
    if answers.head == "wheels" and answers.is_small:
        return "The head for a small camera listens to a joystick and not to wheels: say `--head stick`" + (
            ", or `follow`." if answers.on == "hand" else "."
        )
    if answers.head == "stick" and answers.on == "hand" and not answers.is_small:
        return "A joystick talks to a remote head, which is too heavy to carry: say `--head wheels` or `follow`."
    if answers.is_remote and "operator" not in answers.picture:
        return "Whoever operates a head from afar needs a picture of it: say `--picture operator` among the others."
    return None


def _judge_lens(answers: Answers) -> str | None:
    rings = " and ".join(answers.lens)
    if not answers.lens:
        return None
    if answers.is_small and "zoom" in answers.lens:
        return "The lens of a small camera has a ring for focus and one for iris, and none for zoom: leave zoom out."
    if answers.is_small and answers.head == "stick":
        return (
            "The small remote head carries 1.1 kg, and a camera with lens and motors is more: say `--lens none`, or"
            " `--camera 12v`."
        )
    if answers.lens_by == "dial":
        if answers.head != "follow":
            return (
                "The dial is on a head that is carried by follow mode: say `--head follow`, or `--lens-by hand_unit`."
            )
        if len(answers.lens) > 1:
            count = len(answers.lens)
            return f"The dial of the head turns one ring, and {rings} are {count}: say one, or `--lens-by hand_unit`."
    if answers.lens_by == "desk":
        return _judge_desk_lens(answers, rings)
    return None


def _judge_desk_lens(answers: Answers, rings: str) -> str | None:
    if not answers.is_remote:
        return "There is no desk where no head is operated from afar: say `--head wheels`, or `--lens-by hand_unit`."
    if answers.head == "wheels" and not has_line(answers):
        if len(answers.lens) > 1:
            return (
                f"Over the picture link a desk has one ring, and {rings} are {len(answers.lens)}: say one, or"
                " `--lens-by hand_unit`."
            )
        reach = ("focus", "iris")
    else:
        reach = DESK_RINGS[answers.head]
    missing = [ring for ring in answers.lens if ring not in reach]
    if missing:
        return (
            f"The desk with `{answers.head}` has {' and '.join(reach)}, and no control for {' and '.join(missing)}:"
            " leave it out, or say `--lens-by hand_unit`."
        )
    return None


def _judge_record(answers: Answers) -> str | None:
    if "hand_unit" in answers.record and answers.lens_by != "hand_unit":
        return "No hand unit is there to record from: say `--lens-by hand_unit`, or record from something else."
    if "desk" in answers.record and not answers.is_remote:
        return "No desk is there to record from: say `--head wheels` or `stick`, or record from something else."
    if "trigger" in answers.record and answers.head != "follow":
        return "The trigger is on a head that is carried by follow mode: say `--head follow`, or another `--record`."
    if answers.is_small and {"hand_unit", "trigger"} <= set(answers.record):
        return "The small camera's trigger box has one input: record from the hand unit or from the head's trigger."
    if "camera" in answers.record and answers.on not in ATTENDED_PLACES:
        return f"Nobody stands at a camera on `{answers.on}` to press its button: say `--record hand_unit` or `desk`."
    if "camera" in answers.record and answers.is_remote and answers.on != "hand":
        return "The operator is at the desk, not at the camera's button: say `--record desk` or `hand_unit`."
    return None


def _judge_picture(answers: Answers) -> str | None:
    if answers.is_small and answers.by_radio and answers.lines > 1080:
        return (
            f"A small camera gives {answers.format} on its only output, and its sender takes up to 1080 lines: say"
            " `--format 1080p25`, or let nobody look from afar."
        )
    return None


_CHECKS: tuple[Callable[[Answers], str | None], ...] = (
    _judge_power,
    _judge_head,
    _judge_lens,
    _judge_record,
    _judge_picture,
)
