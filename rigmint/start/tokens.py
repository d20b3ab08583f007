"""How names in a table are compared: by their letters and digits alone, whatever stands between them."""

from __future__ import annotations

import re
import unicodedata

_WORD = re.compile(r"[a-z]+|[0-9]+")


def split_tokens(text: str) -> tuple[str, ...]:
    """Words and numbers of a text: `Camera A, SDI1` is camera, a, sdi, 1. Accents are dropped."""
    plain = unicodedata.normalize("NFKD", text).casefold()
    return tuple(_WORD.findall("".join(letter for letter in plain if not unicodedata.combining(letter))))


def name_item(text: str) -> str:
    """The text as an item's name: `[a-z][a-z0-9_]*`; empty where nothing of it can be one."""
    plain = unicodedata.normalize("NFKD", text).casefold().encode("ascii", "ignore").decode()
    joined = "_".join(re.findall(r"[a-z0-9]+", plain))
    return joined if not joined[:1].isdigit() else f"item_{joined}"


def name_label(text: str) -> str:
    """The text as a lead's label: letters, digits, `-` and `_`, a letter first; empty where nothing is left."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()
    label = re.sub(r"[^A-Za-z0-9_-]+", "-", plain).strip("-_")
    return f"L{label}" if label[:1].isdigit() else label
