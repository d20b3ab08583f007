"""A shape a grade, so that no colour is needed to tell them apart."""

from __future__ import annotations

from rigmint.words import Grade

GRADE_MARKS = {
    Grade.HURT: "\u25b2",  # a filled triangle
    Grade.BURN: "\u25c6",  # a filled diamond
    Grade.DEAD: "\u25a0",  # a filled square
    Grade.FIGHT: "\u25cf",  # a filled disc
    Grade.THIN: "\u25cb",  # a ring
    Grade.TIDY: "\u25ab",  # a small square
}
