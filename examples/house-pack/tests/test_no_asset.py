"""`kestrel:no-asset`."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

CODE = "kestrel:no-asset"
RIG = """\
rigmint: 1
rig: Saltmarsh, on the bench
kit:
  plate: generic/plate-wedge-two-tap
  lens_a: generic/lens-prime-compact  # here
  lens_b: generic/lens-prime-compact
"""
FIRST = ("lens_a: generic/lens-prime-compact", "lens_a: {part: generic/lens-prime-compact, asset: LENS-12}")
SECOND = ("lens_b: generic/lens-prime-compact", "lens_b: {part: generic/lens-prime-compact, asset: LENS-13}")


def test_lists_what_has_no_number() -> None:
    finding = assert_finds(check_text(RIG), CODE, line=find_line(RIG), at="lens_a", cause="lens_a", grade=Grade.TIDY)

    assert (finding.also, finding.says) == (("lens_b",), "No asset number for lens_a and lens_b.")


def test_is_silent_where_all_have_one() -> None:
    assert_silent(check_text(edit_text(RIG, FIRST, SECOND)), CODE)


def test_a_plate_is_not_counted() -> None:
    rig = "rigmint: 1\nrig: Saltmarsh, a plate\nkit: {plate: generic/plate-wedge-two-tap}\n"

    assert_silent(check_text(rig), CODE)
