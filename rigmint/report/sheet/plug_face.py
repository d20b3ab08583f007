"""A connector as one looks into it: its contacts by their names, plus and minus marked. Not to scale."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from rigmint.rig.connector import Connector

_SIZE = 44.0
_ROUND_FROM = 3
_MOST_ROUND = 9


@dataclass(frozen=True, slots=True)
class FaceContact:
    """A contact at its place in a drawing of 44 by 44; `role` is plus, minus or empty."""

    x: float
    y: float
    radius: float
    name: str
    role: str


@dataclass(frozen=True, slots=True)
class PlugFace:
    """The face of a plug or a socket: its outline is a circle, or a box for contacts that have names."""

    width: float
    height: float
    is_round: bool
    contacts: tuple[FaceContact, ...]
    says: str
    """The same in words."""


def draw_face(connector: Connector, roles: Mapping[str, str]) -> PlugFace:
    """`roles`: contact to plus or minus as a meter must find them; other contacts carry signals, or nothing."""
    names = connector.contacts
    is_round = all(name.isdigit() for name in names) and len(names) <= _MOST_ROUND
    told = [f"{name} {roles[name]}" for name in names if roles.get(name)]
    places = _lay_round(len(names)) if is_round else _lay_rows(len(names))
    width = _SIZE if is_round else max(x for x, _, _ in places) + 20.0
    height = _SIZE if is_round else max(y for _, y, _ in places) + 14.0
    contacts = tuple(
        FaceContact(x, y, radius, name, roles.get(name, "")) for name, (x, y, radius) in zip(names, places, strict=True)
    )
    return PlugFace(width, height, is_round, contacts, ", ".join(told) or "no plus")


def _lay_round(number: int) -> list[tuple[float, float, float]]:
    """Contacts in a ring, clockwise from the top left; one or two lie on a line."""
    middle = _SIZE / 2
    if number < _ROUND_FROM:
        return [(middle + 9.0 * (2 * index - number + 1), middle, 7.5) for index in range(number)]
    radius = 6.0 if number < 6 else 4.8
    ring = 13.0
    turns = [2 * math.pi * (index / number) - math.pi * 0.75 for index in range(number)]
    return [(round(middle + ring * math.cos(t), 1), round(middle + ring * math.sin(t), 1), radius) for t in turns]


def _lay_rows(number: int) -> list[tuple[float, float, float]]:
    """Contacts with names in rows of three."""
    return [(20.0 + 40.0 * (index % 3), 14.0 + 20.0 * (index // 3), 0.0) for index in range(number)]
