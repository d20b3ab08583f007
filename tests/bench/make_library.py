"""A library of many different rigs, always the same for a seed: what the benchmark checks.

    python tests/bench/make_library.py FOLDER [COUNT] [SEED]

A rig is one camera or several, each at a desk or flown by follow mode, with what prep puts around it, and a village
where all pictures arrive: 20 to 60 items, one to three setups. Sound rigs are as the examples are; one in twenty has a
fault, named in its last line.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

from bench_faults import FAULTS
from bench_units import LENS_CHANNELS, PICTURE_CHANNELS, Sheet, add_desk_unit, add_follow_unit, add_village

COUNT = 1000
SEED = 6
FAULT_SHARE = 0.05
LEAST, MOST = 20, 60
_JOBS = ("Saltmarsh", "Oat Field", "Low Tide", "Kettle Lane", "Glass Weir", "Pale Harbour", "Tin Kite", "Lamp Black")
_SAYS = (
    "Handheld, operator at the wheels",
    "Follow mode, director watches",
    "Kept as it went out",
    "Second unit's copy",
)
_LIBRARY = """\
rigmint_library: 1
title: Kestrel Hire
parts: [parts]
fail_on: fight
power: {change_at: 15 %, age: 85 %}
"""
_PARTS = """\
rigmint_part: 1
id: kestrel/head-pan-stop
like: generic/head-handheld-large
name: Handheld stabiliser head, large, with a pan stop
figures: measured in the workshop
joints: {pan: {endless: null, travel: -340 to 340 deg}}
"""


def write_library(folder: Path, count: int = COUNT, seed: int = SEED) -> list[Path]:
    """Write a library file and `count` rigs into an empty folder; the rigs, in order."""
    (folder / "rigs").mkdir(parents=True)
    (folder / "parts").mkdir()
    (folder / "parts" / "heads.part.yaml").write_text(_PARTS, encoding="utf-8")
    (folder / "rigmint.yaml").write_text(_LIBRARY, encoding="utf-8")
    paths = []
    for number in range(count):
        path = folder / "rigs" / f"rig-{number:04}.rig.yaml"
        path.write_text(make_rig(number, seed), encoding="utf-8")
        paths.append(path)
    return paths


def is_faulty(number: int) -> bool:
    """Whether the rig of a number has a fault."""
    return number % round(1 / FAULT_SHARE) == round(1 / FAULT_SHARE) - 1


def make_rig(number: int, seed: int = SEED) -> str:
    """The text of one rig."""
    chance = random.Random(f"{seed}/{number}")
    while True:
        sheet = _draw_sheet(chance, number)
        if LEAST <= len(sheet.kit) <= MOST:
            break
    said = ""
    if is_faulty(number):
        name, make = FAULTS[number // 20 % len(FAULTS)]
        make(sheet)
        said = f"# fault: {name}\n"
    return _write_sheet(sheet, chance, number) + said


def _draw_sheet(chance: random.Random, number: int) -> Sheet:
    sheet = Sheet(chance)
    letters = ["a", "b", "c"][: chance.choices((1, 2, 3), (4, 5, 3))[0]]
    pictures, lenses = chance.sample(PICTURE_CHANNELS, len(letters)), chance.sample(LENS_CHANNELS, len(letters))
    for letter, picture, lens in zip(letters, pictures, lenses, strict=True):
        add = chance.choice((add_desk_unit, add_follow_unit))
        add(sheet, letter, picture, lens, f"CAM-{number:03}{letter.upper()}")
    if len(letters) > 1 or chance.random() < 0.6:
        add_village(sheet, letters)
    return sheet


def _write_sheet(sheet: Sheet, chance: random.Random, number: int) -> str:
    job = f"{_JOBS[number % len(_JOBS)]} {number // 3:03}"
    lines = [
        f"# Rig {number} of the library. Each block below is a question that prep answers anyway.",
        "rigmint: 1",
        f"rig: {job}, {len(sheet.units)} camera{'s' if len(sheet.units) > 1 else ''}",
        f"says: {chance.choice(_SAYS)}",
        f"job: {job}",
        "on: hand",
        "stance: upright",
        f"region: {sheet.region}",
        "where: open",
        "",
        "kit:",
        *_list_pairs(sheet.kit),
        "",
        "# What mates with no lead between",
        "docks:",
        *(f"  - {dock}" for dock in sheet.docks),
        "",
        "# The label on each lead, and where it goes",
        "leads:",
        *_list_pairs(sheet.leads),
        "",
        "links:",
        *_list_pairs(sheet.links),
        "",
        "fitted: {" + ", ".join(f"{motor}: {ring}" for motor, ring in sheet.fitted.items()) + "}",
        "crew:",
        *_list_pairs({person: f"[{', '.join(items)}]" for person, items in sheet.crew.items()}),
        f"needs: {{runtime: {sheet.runtime} min, distance: {sheet.distance} m, timecode: [{', '.join(sheet.cameras)}]}}",
        "settings:",
        *_list_pairs(sheet.settings),
        "setups:",
        *_list_setups(sheet),
        "tied:",
        *(f"  - {place}" for place in sheet.tied),
    ]
    return "\n".join(lines) + "\n"


def _list_pairs(entries: Mapping[str, str], indent: str = "  ") -> list[str]:
    return [f"{indent}{key}: {value}" for key, value in entries.items()]


def _list_setups(sheet: Sheet) -> list[str]:
    lines: list[str] = []
    for name in sheet.setups:
        lines += [f"  {name}:", f"    says: {sheet.setups[name].says}"]
        lines += _list_words("set", sheet.setups[name].set)
        lines += [f"    out: [{', '.join(sheet.setups[name].out)}]"] if sheet.setups[name].out else []
        lines += ["    who:", *_list_pairs(sheet.setups[name].who, "      ")]
    return lines


def _list_words(key: str, words: Mapping[str, str]) -> list[str]:
    return [f"    {key}: {{" + ", ".join(f"{name}: {value}" for name, value in words.items()) + "}"] if words else []


def main(arguments: Sequence[str]) -> None:
    """Write a library where the first argument says."""
    folder, *numbers = arguments
    write_library(Path(folder), *(int(number) for number in numbers))


if __name__ == "__main__":
    main(sys.argv[1:])
