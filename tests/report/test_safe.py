"""What users wrote cannot act on a terminal."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigmint.report.safe import clean


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("camera.dc_in at 14.4 V", "camera.dc_in at 14.4 V"),
        ("Ω, mm², ß, 焦点, עדשה", "Ω, mm², ß, 焦点, עדשה"),
        ("\x1b[31mred", "\\x1b[31mred"),
        ("a\tb\r\nc", "a\\tb\\r\\nc"),
        ("\x7f\x85\x9b", "\\x7f\\x85\\x9b"),
        ("\u202eevil\u202c\u2066\u200f", "\\u202eevil\\u202c\\u2066\\u200f"),
        ("zero\u200bwidth\ufeff", "zero\\u200bwidth\\ufeff"),
        ("line\u2028break", "line\\u2028break"),
        ("tag\U000e0041", "tag\\U000e0041"),
        ("stray\udcff", "stray\\udcff"),
    ],
)
def test_clean(text: str, shown: str) -> None:
    assert clean(text) == shown


@given(st.text(alphabet=st.characters(codec=None, exclude_categories=())))
def test_clean_leaves_nothing_that_does_not_print(text: str) -> None:
    cleaned = clean(text)

    assert all(character.isprintable() or unicodedata.category(character) == "Zs" for character in cleaned)
    assert cleaned.encode("utf-8").decode("utf-8") == cleaned


@given(st.text())
def test_clean_is_idempotent(text: str) -> None:
    assert clean(clean(text)) == clean(text)
