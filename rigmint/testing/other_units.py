"""The same file in other units: 45 cm in inches, 14.4 V in millivolts, 0.6 N*m in ounce-inches.

What is found must not change, since rules see SI figures only; a rule that compares them to the last digit, or that
reads a figure out of a text, shows itself here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from rigmint.library.build_rig import read_rig
from rigmint.library.document import Document, Value
from rigmint.library.document import Path as TreePath
from rigmint.library.faults import FaultList
from rigmint.library.library_file import load_library
from rigmint.library.text_edits import apply_replacements
from rigmint.library.text_replacement import Replacement
from rigmint.library.yaml import parse_yaml
from rigmint.rig.quantity import UNITS, Unit
from rigmint.testing.shelves import OpenShelf, Shelf

_OTHER = {
    "voltage": "mV",
    "current": "mA",
    "resistance": "kohm",
    "power": "mW",
    "energy": "J",
    "length": "in",
    "mass": "oz",
    "duration": "h",
    "frequency": "kHz",
    "bitrate": "kbit/s",
    "angle": "rad",
    "angular_speed": "rpm",
    "torque": "oz*in",
    "temperature": "degF",
}
"""The unit in which a kind of quantity is written instead. Other kinds have one unit only."""
_WORDS = frozenset(
    {
        "by",
        "figures",
        "firmware",
        "house",
        "job",
        "mark",
        "marked",
        "metered",
        "name",
        "notes",
        "rig",
        "says",
        "set",
        "settings",
        "tag",
        "title",
        "when",
        "why",
    }
)
"""Keys below which `24 V` is a text and not a quantity."""
_NUMBER = r"[-+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?"
_UNIT = r"[^\s\d.,_+-][^\s]*"
_QUANTITY = re.compile(rf"({_NUMBER})(?:\s*({_UNIT}))??(?:\s+to\s+({_NUMBER}))?\s*({_UNIT})")
_DIGITS = 12
"""As many as are written: rounded there, nearly every figure differs from the first one in its last digits."""
_KIND_OF = {unit: kind for kind, units in UNITS.items() if kind in _OTHER for unit in units}


def rewrite_units(text: str, name: str) -> str:
    """The text of a file of ours with each quantity in another unit. `name`: of the file, for faults of its YAML, where
    the text is given back as it is."""
    document = parse_yaml(text, name, FaultList())
    if document is None:
        return text
    return apply_replacements(text, list(_find_replacements(document, (), document.tree)))


def read_in_other_units(shelf: Shelf) -> OpenShelf:
    """The rigs of a shelf, its library and every part that they use, catalogue and all, in other units."""

    def parse(text: str, name: str, faults: FaultList) -> Document | None:
        return parse_yaml(rewrite_units(text, name), name, faults)

    library = load_library(shelf.root / "rigmint.yaml", parse)
    rigs = {}
    with TemporaryDirectory() as folder:
        rewritten = Path(folder) / "rewritten.rig.yaml"
        for name, path in shelf.list_files().items():
            rewritten.write_text(rewrite_units(path.read_text(encoding="utf-8"), path.name), encoding="utf-8")
            rigs[name] = read_rig(path, library, text_from=rewritten)
    return OpenShelf(library, rigs)


def rewrite_quantity(text: str) -> str | None:
    """The same quantity, or range, in another unit; None where the text is no quantity of a kind that has one."""
    match = _QUANTITY.fullmatch(text)
    if match is None:
        return None
    first, first_unit, second, unit = match.groups()
    kind = _KIND_OF.get(unit)
    if kind is None or (first_unit is not None and (second is None or _KIND_OF.get(first_unit) != kind)):
        return None
    other = _OTHER[kind] if unit != _OTHER[kind] else next(iter(UNITS[kind]))
    new = UNITS[kind][other]
    low = _convert(first, UNITS[kind][first_unit or unit], new)
    if second is None:
        return f"{low} {other}"
    return f"{low} to {_convert(second, UNITS[kind][unit], new)} {other}"


def _convert(number: str, old: Unit, new: Unit) -> str:
    return f"{(float(number) * old.factor + old.offset - new.offset) / new.factor:.{_DIGITS}g}"


def _find_replacements(document: Document, path: TreePath, value: Value) -> Iterator[Replacement]:
    if isinstance(value, dict):
        for key, item in value.items():
            if key not in _WORDS:
                yield from _find_replacements(document, (*path, key), item)
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from _find_replacements(document, (*path, index), item)
    elif isinstance(value, str) and (other := rewrite_quantity(value)) is not None:
        span = document.marks.values[path]
        yield Replacement(span.start, span.end, other)
