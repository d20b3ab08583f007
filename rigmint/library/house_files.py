"""The house's own files that a library names: schemas and checks, which must lie in the library's folder."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from rigmint.library.document import Document
from rigmint.library.document import Path as KeyPath
from rigmint.library.faults import FaultList
from rigmint.library.paths import is_there, resolve_path
from rigmint.rig.place import Position


@dataclass(frozen=True, slots=True)
class HouseFile:
    """A file of the house: where it lies, how reports show it, where the library names it."""

    path: Path
    """Resolved."""
    shown: str
    position: Position


@dataclass(frozen=True, slots=True)
class HousePaths:
    """The files that are there; one that is not is a fault of the library."""

    rig_schema: HouseFile | None = None
    part_schema: HouseFile | None = None
    checks: tuple[HouseFile, ...] = ()


NO_HOUSE_PATHS = HousePaths()


def find_house_files(
    document: Document, tree: Mapping[str, Any], folder: tuple[Path, str], faults: FaultList
) -> HousePaths:
    """The files under `house:` of a library. `folder`: the library's, resolved, and how reports show it."""
    named = tree.get("house", {})
    found = {
        key: _find(document, ("house", key), named[key], folder, faults) for key in ("rig", "part") if named.get(key)
    }
    checks = [
        _find(document, ("house", "checks", index), name, folder, faults)
        for index, name in enumerate(named.get("checks") or ())
        if name is not None
    ]
    return HousePaths(found.get("rig"), found.get("part"), tuple(one for one in checks if one is not None))


def _find(document: Document, key: KeyPath, name: str, folder: tuple[Path, str], faults: FaultList) -> HouseFile | None:
    root, shown_root = folder
    target = resolve_path(root / name)
    position = document.position(key)
    if not target.is_relative_to(root):
        says = f"`house:` names {name}, which leads out of the library's folder"
    elif not is_there(target):
        says = f"`house:` names {name}, which is not there"
    else:
        shown = f"{shown_root}/{name}" if shown_root not in ("", ".") else name
        return HouseFile(target, shown, position)
    faults.add(document.file, position, "file:unreadable", says)
    return None
