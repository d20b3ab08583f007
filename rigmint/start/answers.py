"""What was answered to the questions of `start rig`, and the words that an answer may be."""

from __future__ import annotations

from dataclasses import dataclass

PLACES = ("hand", "tripod", "vehicle", "crane", "overhead", "cable", "studio")
CAMERAS = ("12v", "24v", "small")
POWERS = ("battery", "hotswap", "mains", "vehicle")
LENS_CONTROLS = ("hand_unit", "desk", "dial")
HEADS = ("none", "follow", "wheels", "stick")
VIEWERS = ("operator", "first_ac", "director")
RECORDERS = ("hand_unit", "desk", "trigger", "camera")
REGIONS = ("eu", "uk", "us")
MOST_PEOPLE = 9

REMOTE_HEADS = ("wheels", "stick")
MOVING_PLACES = ("hand", "vehicle", "crane", "overhead", "cable")
HIGH_PLACES = ("vehicle", "crane", "overhead", "cable")
"""Where what comes loose can fall on somebody, or be struck by the wind of a moving car."""
HANGING_PLACES = ("crane", "overhead", "cable")
"""Where the head hangs below what carries it."""
ATTENDED_PLACES = ("hand", "tripod", "studio")
"""Where somebody can stand at the camera."""


class Refusal(ValueError):
    """Answers that make no sense together, or a name that cannot be used; the message is a sentence that says why."""


@dataclass(frozen=True, slots=True)
class Answers:
    """The eight answers. `hours`: of the day; `distance`: m between the rig and those who work it from afar."""

    on: str
    people: int
    camera: str
    format: str
    power: str
    lens: tuple[str, ...]
    """Rings that are driven, of focus, iris, zoom."""
    lens_by: str | None
    """hand_unit, desk or dial; None where no ring is driven."""
    head: str
    picture: tuple[str, ...]
    """Who looks at picture, of operator, first_ac, director."""
    record: tuple[str, ...]
    """The controls that start the camera, of hand_unit, desk, trigger, camera."""
    hours: float
    distance: float
    region: str = "eu"

    @property
    def is_remote(self) -> bool:
        """Whether somebody operates the head from afar."""
        return self.head in REMOTE_HEADS

    @property
    def is_small(self) -> bool:
        """Whether the camera is of the class that lives on USB or a coupler."""
        return self.camera == "small"

    @property
    def has_remote_head(self) -> bool:
        """Whether the head is the large one that lives on 24 V."""
        return self.is_remote and self.on != "hand" and not self.is_small

    @property
    def is_manned(self) -> bool:
        """Whether the operator is at the camera."""
        return self.on in ATTENDED_PLACES and not self.is_remote

    @property
    def stance(self) -> str:
        """How the camera hangs or stands."""
        return "underslung" if self.on in HANGING_PLACES and self.head != "none" else "upright"

    @property
    def lines(self) -> int:
        """Lines of the picture format."""
        return int(self.format.partition("p")[0])

    @property
    def frames(self) -> str:
        """Frames a second of the picture format."""
        return self.format.partition("p")[2]

    @property
    def by_radio(self) -> tuple[str, ...]:
        """Those who get their picture over the air: all but an operator at the camera."""
        return tuple(role for role in self.picture if role != "operator" or not self.is_manned)
