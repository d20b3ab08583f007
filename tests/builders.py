"""Rigs from YAML texts, through the real reader. Parts are read once for all tests that use the same ones.

Parts are written by id, without the two keys that every part has:

    house/pack:
      kind: battery
      cells: {pack: {volts: 12 to 16.8 V}}
    house/lamp: {kind: light, rails: {main: {load: 5 W}}}
"""

from __future__ import annotations

import re
import tempfile
from dataclasses import replace
from functools import cache
from pathlib import Path
from unittest.mock import patch

from rigmint.library.build_rig import ReadRig, assemble_rig
from rigmint.library.document import Document
from rigmint.library.faults import Fault, FaultList
from rigmint.library.library_file import Library, load_library
from rigmint.library.yaml import parse_yaml
from rigmint.rig.house import House
from rigmint.rig.rig import Rig, Setup
from rigmint.study.studies import Studies

RIG_FILE = "test.rig.yaml"


@cache
def _parse_once(text: str, name: str) -> tuple[Document | None, tuple[Fault, ...]]:
    faults = FaultList()
    return parse_yaml(text, name, faults), tuple(faults.found)


def _parse_from_memory(text: str, name: str, faults: FaultList) -> Document | None:
    """The real reader, for the installed catalogue once a session: a hundred libraries are built on it."""
    document, found = _parse_once(text, name)
    faults.found += found
    return document


@cache
def make_library(parts: str = "") -> Library:
    """A library of a house with these parts, besides the installed catalogue."""
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        (root / "rigmint.yaml").write_text("{rigmint_library: 1, title: Kestrel Hire, parts: [.]}", encoding="utf-8")
        (root / "all.part.yaml").write_text(list_parts(parts), encoding="utf-8")
        with patch("rigmint.library.catalogue.parse_yaml", _parse_from_memory):
            return replace(load_library(root / "rigmint.yaml"), roots=())


def list_parts(parts: str) -> str:
    """The text of a part file. Lines and columns change: a part's id stands in a line of its own before the rest."""
    entries = re.sub(r"(?m)^(house/\S+): *\{", r"- {rigmint_part: 1, id: \1, ", parts)
    entries = re.sub(r"(?m)^(house/\S+):$", r"- rigmint_part: 1\n  id: \1", entries)
    return f"parts:\n{entries}\n" if entries.strip() else "parts: []\n"


def read_rig_text(rig: str, parts: str = "") -> ReadRig:
    """The outcome of reading a rig file that holds `rigmint: 1`, a title in its second line, and `rig`."""
    faults = FaultList()
    document = parse_yaml(f"rigmint: 1\nrig: Saltmarsh\n{rig}", RIG_FILE, faults)
    if document is None:
        return ReadRig(RIG_FILE, None, faults.in_order())
    return assemble_rig(document, make_library(parts), faults)


def make_rig(rig: str, parts: str = "") -> Rig:
    """A rig without faults."""
    read = read_rig_text(rig, parts)
    assert read.rig is not None, list_faults(read)
    return read.rig


def list_faults(read: ReadRig) -> list[tuple[str, int, int, str]]:
    """Code, line, column and sentence of each fault."""
    return [(fault.code, fault.line, fault.column, fault.says) for fault in read.faults]


def make_studies(rig: str, parts: str = "", house: House | None = None) -> tuple[Studies, Setup]:
    """The studies of a rig, and its first setup."""
    found = make_rig(rig, parts)
    return Studies(found, house or House()), next(iter(found.setups.values()))
