"""A second reader of rig files, for the tests alone: YAML texts to trees of plain text, with `like:` resolved.

Nothing here is the project's own code. Every scalar stays text, as the format has it (`on`, `1` and `2.10` are words
until a key says what they are); `null` removes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML

Tree = dict[str, Any]

CATALOGUE = Path(__file__).parents[2] / "rigmint" / "catalogue"
_NOT_INHERITED = frozenset({"id", "name", "figures", "like"})
_NULLS = frozenset({"null", "Null", "NULL", "~", ""})


@dataclass(frozen=True, slots=True)
class Shelf:
    """Parts by id (not yet merged), connectors and protocols by name, and the library's `power:`."""

    parts: Mapping[str, Tree]
    connectors: Mapping[str, Tree]
    protocols: Mapping[str, Tree]
    power: Mapping[str, str]

    def part(self, part_id: str) -> Tree:
        """A part with what it inherits."""
        own = self.parts[part_id]
        return lay_over(own, self.part(own["like"])) if "like" in own else own


def read_yaml(path: Path) -> Tree:
    """The tree of a file."""
    tree = YAML(typ="base").load(path.read_text(encoding="utf-8"))
    assert isinstance(tree, dict), path
    return tree


def lay_over(own: Tree, base: Tree) -> Tree:
    """`own` over `base`: mappings merge at every depth, anything else replaces, null removes."""
    merged = {key: value for key, value in base.items() if key not in _NOT_INHERITED}
    _merge_into(merged, {key: value for key, value in own.items() if key != "like"})
    return merged


def _merge_into(base: Tree, own: Tree) -> None:
    for key, value in own.items():
        if isinstance(value, str) and value in _NULLS:
            base.pop(key, None)
        elif isinstance(value, dict) and isinstance(base.get(key), dict):
            base[key] = dict(base[key])
            _merge_into(base[key], value)
        else:
            base[key] = value


def read_rig_tree(path: Path) -> Tree:
    """A rig file with what it inherits."""
    own = read_yaml(path)
    return lay_over(own, read_rig_tree(path.parent / own["like"])) if "like" in own else own


@cache
def read_shelf(folder: Path | None) -> Shelf:
    """The installed catalogue, and the library in or above a folder (None: no library)."""
    library = _find_library(folder)
    tree = read_yaml(library) if library is not None else {}
    files = _list_files(CATALOGUE)
    if library is not None:
        for name in tree.get("parts", []):
            files += _list_files(library.parent / name)
    parts: dict[str, Tree] = {}
    connectors: dict[str, Tree] = {}
    protocols: dict[str, Tree] = {}
    for file in files:
        body = read_yaml(file)
        if file.name.endswith(".part.yaml"):
            parts |= {part["id"]: part for part in body.get("parts", [body])}
        else:
            connectors |= body.get("connectors", {})
            protocols |= body.get("protocols", {})
    return Shelf(parts, connectors, protocols, tree.get("power", {}))


def _find_library(folder: Path | None) -> Path | None:
    if folder is None:
        return None
    here = folder.resolve()
    return next((at / "rigmint.yaml" for at in (here, *here.parents) if (at / "rigmint.yaml").is_file()), None)


def _list_files(folder: Path) -> list[Path]:
    endings = (".part.yaml", ".connectors.yaml", ".protocols.yaml")
    return sorted(path for path in folder.rglob("*.yaml") if path.name.endswith(endings))
