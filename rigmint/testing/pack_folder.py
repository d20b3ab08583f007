"""A pack under test: the folder that it is made in, and what is installed of it."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from importlib.metadata import entry_points
from pathlib import Path

from rigmint.lint.packs import ENTRY_POINTS, Pack, PackSet, load_packs
from rigmint.testing.cases import BadCase
from rigmint.testing.shelves import Shelf, find_own_shelf

MANIFEST = "pyproject.toml"


@dataclass(frozen=True, slots=True)
class PackUnderTest:
    """An installed pack, with all the codes that it declares, and the other packs beside which it runs.

    `faults`: in words, what kept rigmint from loading it whole.
    """

    pack: Pack
    folder: Path
    others: PackSet
    faults: tuple[str, ...] = ()

    @property
    def own_shelf(self) -> Shelf | None:
        """Its own rigs, under `tests/rigs`."""
        return find_own_shelf(self.folder)


def open_pack_folder(folder: Path) -> list[PackUnderTest]:
    """The packs that the pyproject.toml of a folder names under `rigmint.packs`. Raises BadCase where it names none, or
    where one of them is not installed or cannot be loaded."""
    names = list_pack_names(folder / MANIFEST)
    if not names:
        msg = f'{folder / MANIFEST} names no pack under [project.entry-points."{ENTRY_POINTS}"]'
        raise BadCase(msg)
    return [open_installed_pack(name, folder) for name in names]


def list_pack_names(manifest: Path) -> list[str]:
    """The packs that a pyproject.toml names. Raises BadCase where it cannot be read."""
    try:
        project = tomllib.loads(manifest.read_text(encoding="utf-8")).get("project", {})
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        msg = f"{manifest} cannot be read: {error}"
        raise BadCase(msg) from error
    return sorted(project.get("entry-points", {}).get(ENTRY_POINTS, {}))


def open_installed_pack(name: str, folder: Path) -> PackUnderTest:
    """The installed pack of a name. Raises BadCase where there is none, or where it gives no rules at all."""
    points = entry_points(group=ENTRY_POINTS)
    own = load_packs(point for point in points if point.name == name)
    says = tuple(fault.says for fault in own.faults)
    if not own.packs:
        msg = f"no pack `{name}` is installed" if not says else "; ".join(says)
        raise BadCase(msg)
    others = load_packs(point for point in points if point.name != name)
    return PackUnderTest(own.packs[0], folder, others, says)
