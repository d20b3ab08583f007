"""For authors of packs: what their tests are made of.

- `check_text`, `check_texts`: rigs as YAML text through the real reader and the real engine, with the packs installed
- `assert_finds`, `assert_silent`: what the report must hold, and must not
- `BenchRig`: a rig in a few lines of Python, given as YAML text; `start_powered`, `start_driven`: small ones
- `open_pack_folder`, `CHECKS`, `Runs`: what every pack must hold to, as `plugin` runs it under pytest

Strict on purpose, so that no test passes on nothing: text that cannot be read, an unknown key, a code that no installed
rule has, a mark that is not there, an empty collection of rigs, each raise `BadCase`. An expectation that is not met
raises `AssertionError` with the whole report in its message.

Names are loaded when they are first asked for: pytest imports `plugin` in every run where rigmint is installed.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

_HOMES = {
    "rigmint.testing.bench_rig": ("BenchRig", "start_driven", "start_powered"),
    "rigmint.testing.cases": (
        "DAY",
        "LIBRARY",
        "MARK",
        "BadCase",
        "check_text",
        "check_texts",
        "edit_text",
        "find_line",
        "show_report",
    ),
    "rigmint.testing.conformance": ("CHECKS", "assert_pack"),
    "rigmint.testing.expectations": ("assert_finds", "assert_silent"),
    "rigmint.testing.runs": ("Runs",),
    "rigmint.testing.pack_folder": ("PackUnderTest", "open_pack_folder"),
    "rigmint.testing.shelves": ("Shelf", "find_corpus"),
}
_HOME_OF = {name: home for home, names in _HOMES.items() for name in names}

__all__ = sorted(_HOME_OF)


def __getattr__(name: str) -> object:
    home = _HOME_OF.get(name)
    if home is None:
        msg = f"module 'rigmint.testing' has no attribute {name!r}"
        raise AttributeError(msg)
    return getattr(import_module(home), name)


def __dir__() -> list[str]:
    return sorted([*globals(), *_HOME_OF])


if TYPE_CHECKING:
    from rigmint.testing.bench_rig import BenchRig as BenchRig
    from rigmint.testing.bench_rig import start_driven as start_driven
    from rigmint.testing.bench_rig import start_powered as start_powered
    from rigmint.testing.cases import DAY as DAY
    from rigmint.testing.cases import LIBRARY as LIBRARY
    from rigmint.testing.cases import MARK as MARK
    from rigmint.testing.cases import BadCase as BadCase
    from rigmint.testing.cases import check_text as check_text
    from rigmint.testing.cases import check_texts as check_texts
    from rigmint.testing.cases import edit_text as edit_text
    from rigmint.testing.cases import find_line as find_line
    from rigmint.testing.cases import show_report as show_report
    from rigmint.testing.conformance import CHECKS as CHECKS
    from rigmint.testing.conformance import assert_pack as assert_pack
    from rigmint.testing.expectations import assert_finds as assert_finds
    from rigmint.testing.expectations import assert_silent as assert_silent
    from rigmint.testing.pack_folder import PackUnderTest as PackUnderTest
    from rigmint.testing.pack_folder import open_pack_folder as open_pack_folder
    from rigmint.testing.runs import Runs as Runs
    from rigmint.testing.shelves import Shelf as Shelf
    from rigmint.testing.shelves import find_corpus as find_corpus
