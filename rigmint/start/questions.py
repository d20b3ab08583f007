"""The eight questions of `start rig`: what is asked, what an answer may be, and what stands in for one."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from rigmint.library.catalogue import Catalogue
from rigmint.rig.quantity import QuantityError, parse_quantity
from rigmint.start.answers import (
    CAMERAS,
    HEADS,
    LENS_CONTROLS,
    MOST_PEOPLE,
    PLACES,
    POWERS,
    RECORDERS,
    REGIONS,
    REMOTE_HEADS,
    VIEWERS,
    Answers,
    Refusal,
)
from rigmint.words import LENS_AXES

NONE = "none"
_CAMERA_PARTS = {"12v": "camera-compact", "24v": "camera-large-24v", "small": "camera-small-usb"}
_METRES = {"vehicle": "10 m", "studio": "15 m", "crane": "30 m", "cable": "100 m"}
_METRES_SMALL = "25 m"
"""What the radio of the small remote head still reaches where it is not quite open."""
_MOST_HOURS = 24.0

Given = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Question:
    """One answer that is due. `number`: the question that it belongs to, of eight. `choices`: words that it may be;
    empty for a free one. `many`: several of them, or `none`."""

    key: str
    number: int
    asks: str
    choices: tuple[str, ...]
    many: bool
    default: Callable[[Given], str]

    def is_due(self, given: Given) -> bool:
        """Whether it has to be asked at all."""
        return self.key != "lens_by" or given["lens"] != NONE


def _default_lens(given: Given) -> str:
    if given["camera"] == "small":
        return NONE
    return "focus" if given["people"] == "1" else "focus,iris"


def _default_lens_by(given: Given) -> str:
    if given["people"] != "1":
        return "hand_unit"
    return {"hand": "dial", "studio": "hand_unit"}.get(given["on"], "desk")


def _default_head(given: Given) -> str:
    afar = "stick" if given["camera"] == "small" else "wheels"
    if given.get("lens_by") == "desk":
        return afar
    if given.get("lens_by") == "dial":
        return "follow"
    if given["on"] == "studio":
        return NONE
    if given["on"] != "hand":
        return afar
    is_crew = given["people"].isdecimal() and int(given["people"]) > 2
    return afar if is_crew and given["camera"] != "small" else "follow"


def _default_picture(given: Given) -> str:
    people = int(given["people"]) if given["people"].isdecimal() else 1
    viewers = ["operator"]
    people -= 1 + (given["on"] == "hand" and given["head"] in REMOTE_HEADS)
    if people > 0 and given.get("lens_by") == "hand_unit":
        viewers.append("first_ac")
        people -= 1
    if people > 0:
        viewers.append("director")
    return ",".join(viewers)


def _default_record(given: Given) -> str:
    if given.get("lens_by") == "hand_unit":
        return "hand_unit"
    if given["head"] in REMOTE_HEADS:
        return "desk"
    return "trigger" if given["head"] == "follow" else "camera"


def _default_distance(given: Given) -> str:
    usual = _METRES.get(given["on"], "50 m")
    is_by_small_head = given["camera"] == "small" and given["head"] in REMOTE_HEADS
    return _METRES_SMALL if is_by_small_head and given["on"] not in ("vehicle", "studio") else usual


QUESTIONS = (
    Question("on", 1, "What is it on", PLACES, False, lambda _: "hand"),
    Question("people", 2, "How many people work it", (), False, lambda _: "2"),
    Question("camera", 3, "Camera class", CAMERAS, False, lambda _: "12v"),
    Question(
        "format", 3, "Picture format", (), False, lambda given: "2160p25" if given["camera"] == "24v" else "1080p25"
    ),
    Question(
        "power",
        4,
        "Power",
        POWERS,
        False,
        lambda given: {"vehicle": "vehicle", "studio": "mains"}.get(given["on"], "battery"),
    ),
    Question("lens", 5, "Lens rings that are driven", LENS_AXES, True, _default_lens),
    Question("lens_by", 5, "From what", LENS_CONTROLS, False, _default_lens_by),
    Question("head", 6, "Who has the head", HEADS, False, _default_head),
    Question("picture", 7, "Who looks at picture", VIEWERS, True, _default_picture),
    Question("record", 8, "What starts the camera", RECORDERS, True, _default_record),
    Question("hours", 8, "Hours of the day", (), False, lambda _: "10 h"),
    Question("distance", 8, "Distance to those afar", (), False, _default_distance),
)


def read_answer(question: Question, text: str) -> str:
    """The answer as the rest understands it: words in full, several joined by commas. Raises Refusal for what it may
    not be. A word may be cut short as long as one alone begins so."""
    words = text.replace("+", ",").replace(" ", ",") if question.many else text
    if not question.choices:
        return text.strip()
    if not question.many:
        return _find_word(question, words)
    listed = [word.strip() for word in words.split(",") if word.strip()]
    if not listed or [word.casefold() for word in listed] == [NONE]:
        return NONE
    chosen = {_find_word(question, word) for word in listed}
    return ",".join(word for word in question.choices if word in chosen)


def _find_word(question: Question, word: str) -> str:
    folded = word.strip().casefold().replace("-", "_")
    if folded in question.choices:
        return folded
    begun = [choice for choice in question.choices if folded and choice.startswith(folded)]
    if len(begun) == 1:
        return begun[0]
    listed = ", ".join([*question.choices, *([NONE] if question.many else [])])
    says = "may mean several" if begun else "is none of the answers"
    msg = f"`{word}` {says} to `{question.asks}`: {listed}"
    raise Refusal(msg)


def build_answers(given: Given, region: str, catalogue: Catalogue) -> Answers:
    """The answers from their texts. Raises Refusal for a number or a format that cannot be."""
    if given["record"] == NONE:
        msg = "Something has to start the camera: say what, of " + ", ".join(RECORDERS)
        raise Refusal(msg)
    if region not in REGIONS:
        msg = f"`{region}` is no radio region of the generic parts: {', '.join(REGIONS)}"
        raise Refusal(msg)
    lens = _split(given["lens"])
    return Answers(
        on=given["on"],
        people=_read_people(given["people"]),
        camera=given["camera"],
        format=_read_format(given["format"], given["camera"], catalogue),
        power=given["power"],
        lens=lens,
        lens_by=given["lens_by"] if lens else None,
        head=given["head"],
        picture=_split(given["picture"]),
        record=_split(given["record"]),
        hours=_read_amount(given["hours"], "duration", "h", 3600.0, _MOST_HOURS),
        distance=_read_amount(given["distance"], "length", "m", 1.0, math.inf),
        region=region,
    )


def _split(text: str) -> tuple[str, ...]:
    return () if text == NONE else tuple(text.split(","))


def _read_people(text: str) -> int:
    if not (text.isascii() and text.isdecimal()) or not 1 <= int(text[:4]) <= MOST_PEOPLE:
        msg = f"`{text}` is no number of people: say 1 to {MOST_PEOPLE}"
        raise Refusal(msg)
    return int(text)


def _read_format(text: str, camera: str, catalogue: Catalogue) -> str:
    part = catalogue.part(f"generic/{_CAMERA_PARTS[camera]}")
    formats: Sequence[str] = part.settings["format"].values if part is not None else ()
    if text not in formats:
        msg = f"The generic camera of class {camera} does not give `{text}`: say {', '.join(formats)}"
        raise Refusal(msg)
    return text


def _read_amount(text: str, kind: str, unit: str, factor: float, most: float) -> float:
    """A quantity in the unit; a bare number is taken to be in it, since the question names it."""
    try:
        amount = parse_quantity(text if not _is_number(text) else f"{text} {unit}", kind) / factor
    except QuantityError as error:
        raise Refusal(str(error)) from error
    if not 0.0 < amount <= most:
        msg = f"`{text}` is too {'little' if amount <= 0 else 'much'}"
        raise Refusal(msg)
    return amount


def _is_number(text: str) -> bool:
    try:
        return math.isfinite(float(text))
    except ValueError:
        return False
