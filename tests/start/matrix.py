"""All combinations of answers, and a seeded sample of those that make sense."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass

from rigmint.library.catalogue import Catalogue
from rigmint.start.answers import CAMERAS, HEADS, LENS_CONTROLS, PLACES, POWERS, Answers, Refusal
from rigmint.start.draft_rig import draft_rig
from rigmint.start.write_rig import write_rig

FORMATS = {
    "12v": ("1080p25", "1080p50", "2160p25"),
    "24v": ("1080p25", "1080p50", "2160p24", "2160p25", "2160p50"),
    "small": ("1080p25", "1080p50", "2160p25"),
}
LENSES = ((), ("focus",), ("iris",), ("focus", "iris"), ("focus", "zoom"), ("focus", "iris", "zoom"))
PICTURES = (
    (),
    ("operator",),
    ("first_ac",),
    ("director",),
    ("operator", "first_ac"),
    ("operator", "director"),
    ("operator", "first_ac", "director"),
)
RECORDS = (
    ("hand_unit",),
    ("desk",),
    ("trigger",),
    ("camera",),
    ("hand_unit", "desk"),
    ("hand_unit", "trigger"),
    ("hand_unit", "desk", "camera"),
)
DISTANCES = (10.0, 40.0, 100.0)
PEOPLE = (1, 2, 3, 4, 5)


@dataclass(frozen=True, slots=True)
class Sampled:
    """Answers that make sense, and the rig that they gave."""

    answers: Answers
    text: str


def draw_answers(luck: random.Random) -> Answers:
    """One combination, sensible or not."""
    camera = luck.choice(CAMERAS)
    lens = luck.choice(LENSES)
    return Answers(
        on=luck.choice(PLACES),
        people=luck.choice(PEOPLE),
        camera=camera,
        format=luck.choice(FORMATS[camera]),
        power=luck.choice(POWERS),
        lens=lens,
        lens_by=luck.choice(LENS_CONTROLS) if lens else None,
        head=luck.choice(HEADS),
        picture=luck.choice(PICTURES),
        record=luck.choice(RECORDS),
        hours=10.0,
        distance=luck.choice(DISTANCES),
        region=luck.choice(("eu", "uk", "us")),
    )


def sample(count: int, seed: int, catalogue: Catalogue) -> Iterator[Sampled | Refusal]:
    """So many different rigs, and the refusals that were met on the way."""
    luck = random.Random(seed)
    texts: set[str] = set()
    while len(texts) < count:
        answers = draw_answers(luck)
        try:
            text = write_rig(draft_rig(answers, catalogue), "Sample")
        except Refusal as refusal:
            yield refusal
            continue
        if text not in texts:
            texts.add(text)
            yield Sampled(answers, text)
