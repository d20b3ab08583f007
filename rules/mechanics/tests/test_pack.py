"""The pack as a whole: texts, tests and README of every rule."""

from __future__ import annotations

from pathlib import Path

from rigmint.testing import assert_pack


def test_every_rule_is_explained_tested_and_listed() -> None:
    assert_pack("mechanics", Path(__file__).parent.parent)
