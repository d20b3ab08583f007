"""Sound rigs as plain trees, in a library of their own that also holds the wrong parts that mistakes put in."""

from __future__ import annotations

import copy
import importlib.util
import json
import re
import shutil
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from types import ModuleType
from typing import TypeAlias

from tests.power.files import Shelf, Tree, read_rig_tree, read_shelf, read_yaml
from tests.power.leads import LeadReading, read_entry, read_lead
from tests.power.parts import PortReading, read_ports
from tests.seeding.wrong_parts import write_wrong_parts

_ROOT = Path(__file__).parents[2]
_EXAMPLES = _ROOT / "examples"
_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9_./+*%()² -]*[A-Za-z0-9_/+*%)²]|[A-Za-z0-9]")

Change: TypeAlias = Callable[[Tree], None]
"""Makes a mistake in a rig's tree."""


@dataclass(frozen=True, slots=True)
class Base:
    """A sound rig. `parts`: item to part; `ports`: place to reading; `leads`: label to entry and reading."""

    name: str
    tree: Tree
    shelf: Shelf
    parts: dict[str, Tree]
    ports: dict[str, PortReading]
    leads: dict[str, tuple[Tree, LeadReading]]

    def entry(self, item: str) -> Tree:
        """An item's entry in the kit, as a mapping."""
        return as_mapping(self.tree["kit"][item])

    def used(self) -> set[str]:
        """Places into which something goes."""
        found = {place for _, lead in self.leads.values() for place in lead.plugged.values()}
        for dock in self.tree.get("docks", ()):
            found |= set(read_entry(dock)[1].values())
        return found

    def part_id(self, item: str) -> str:
        """The id of an item's part."""
        return str(self.entry(item)["part"])

    def of_kind(self, *kinds: str) -> list[str]:
        """Items of these kinds."""
        return [item for item, part in self.parts.items() if part["kind"] in kinds]

    def mutate(self, change: Change) -> Tree:
        """The tree with a mistake in it."""
        tree = copy.deepcopy(self.tree)
        change(tree)
        return tree


def as_mapping(entry: str | Tree) -> Tree:
    """An item's entry as a mapping."""
    return {"part": entry} if isinstance(entry, str) else dict(entry)


def read_base(name: str, tree: Tree, shelf: Shelf) -> Base:
    """A rig's tree with what mistakes look up."""
    parts = {item: shelf.part(as_mapping(entry)["part"]) for item, entry in tree["kit"].items()}
    ports = {f"{item}.{port}": one for item, part in parts.items() for port, one in read_ports(part, shelf).items()}
    kinds = {item: str(part["kind"]) for item, part in parts.items()}
    leads = {}
    for label, written in tree.get("leads", {}).items():
        entry, plugged = read_entry(written)
        leads[label] = entry, read_lead(entry, plugged, ports, kinds, shelf, 20.0)
    return Base(name, tree, shelf, parts, ports, leads)


@dataclass(frozen=True, slots=True)
class Stock:
    """Sound rigs, the folder of their library, and the library's own tree."""

    folder: Path
    library: Tree
    bases: list[Base]


def make_stock(folder: Path, generated: int, seed: int) -> Stock:
    """Lay down a library with the parts of the examples and of the benchmark, wrong ones of all that rigs use, and read
    the sound rigs: every example, and `generated` of the benchmark's, drawn by the seed."""
    trees = {path.name.partition(".")[0]: read_rig_tree(path) for path in sorted((_EXAMPLES / "rigs").iterdir())}
    maker = _import_maker()
    made = folder / "made"
    paths: list[Path] = maker.write_library(made, 4 * generated + 4, seed)
    sound = [path for number, path in enumerate(paths) if not maker.is_faulty(number)]
    trees |= {path.name.partition(".")[0]: read_rig_tree(path) for path in sound[:generated]}
    for tree in trees.values():
        tree.pop("like", None)
        tree.pop("job", None)
    shutil.copytree(_EXAMPLES / "parts", folder / "parts")
    shutil.copytree(made / "parts", folder / "parts" / "made")
    shutil.rmtree(made)
    shutil.copy(_EXAMPLES / "rigmint.yaml", folder / "rigmint.yaml")
    shelf = read_shelf(folder)
    used = {str(as_mapping(entry)["part"]) for tree in trees.values() for entry in tree["kit"].values()}
    (folder / "parts" / "wrong.part.yaml").write_text(write_wrong_parts(shelf, used), encoding="utf-8")
    read_shelf.cache_clear()
    shelf = read_shelf(folder)
    bases = [read_base(name, tree, shelf) for name, tree in trees.items()]
    return Stock(folder, read_yaml(folder / "rigmint.yaml"), bases)


def _import_maker() -> ModuleType:
    """The benchmark's maker of rigs, which imports its neighbours by their bare names."""
    bench = _ROOT / "tests" / "bench"
    sys.path.insert(0, str(bench))
    try:
        spec = importlib.util.spec_from_file_location("make_library", bench / "make_library.py")
        assert spec is not None
        assert spec.loader is not None
        module = importlib.util.module_from_spec(spec)
        sys.modules[spec.name] = module
        spec.loader.exec_module(module)
    finally:
        sys.path.remove(str(bench))
    return module


def write_tree(tree: Tree) -> str:
    """A tree as YAML, one entry a line at the first two levels, its words as they were."""
    lines = []
    for key, value in tree.items():
        if isinstance(value, dict) and value:
            lines.append(f"{key}:")
            lines += [f"  {inner}: {write_value(body)}" for inner, body in value.items()]
        elif isinstance(value, list) and value:
            lines.append(f"{key}:")
            lines += [f"  - {write_value(body)}" for body in value]
        else:
            lines.append(f"{key}: {write_value(value)}")
    return "\n".join(lines) + "\n"


def write_value(value: object) -> str:
    """A value in one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{write_value(str(key))}: {write_value(body)}" for key, body in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(write_value(body) for body in value) + "]"
    text = str(value)
    return text if _PLAIN.fullmatch(text) else json.dumps(text, ensure_ascii=False)
