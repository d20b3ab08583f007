"""What changes by verb come down to in the file."""

from __future__ import annotations

from rigmint.lint.changes import Bond, SetFitting
from rigmint.lint.edits import Edit, list_edits
from tests.builders import make_rig

RIG = make_rig(
    """
kit:
  lens: generic/lens-prime-compact
  motor_f: generic/lens-motor
  motor_i: {part: generic/lens-motor}
fitted: {motor_f: lens.focus, motor_i: {ring: lens.iris, direction: reversed, marked: normal}}
"""
)


def test_a_fitting_in_one_word_becomes_a_mapping() -> None:
    edits = list_edits(SetFitting("motor_f", "direction", "reversed"), RIG)

    assert edits == (Edit("set", ("fitted", "motor_f"), {"ring": "lens.focus", "direction": "reversed"}),)


def test_a_fitting_keeps_what_else_it_says() -> None:
    edits = list_edits(SetFitting("motor_i", "marked", "reversed"), RIG)

    assert edits == (
        Edit("set", ("fitted", "motor_i"), {"ring": "lens.iris", "direction": "reversed", "marked": "reversed"}),
    )


def test_a_bond_of_an_item_in_one_word_keeps_its_part() -> None:
    assert list_edits(Bond("motor_f"), RIG) == (
        Edit("set", ("kit", "motor_f"), {"part": "generic/lens-motor", "bond": True}),
    )
    assert list_edits(Bond("motor_i"), RIG) == (Edit("set", ("kit", "motor_i", "bond"), True),)
