"""The library file `rigmint.yaml`: where it is found, and what it says."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from rigmint.library.build_answers import build_acceptances, find_impossible_dates
from rigmint.library.build_device import build_requirements
from rigmint.library.catalogue import Catalogue, Parse
from rigmint.library.document import Document
from rigmint.library.faults import Fault, FaultList
from rigmint.library.house_files import NO_HOUSE_PATHS, HousePaths, find_house_files
from rigmint.library.paths import is_folder, is_there, resolve_path
from rigmint.library.schemas import decode_document
from rigmint.library.scope import as_tuple, freeze
from rigmint.library.walk import find_library_above
from rigmint.library.yaml import parse_yaml, read_text
from rigmint.rig.house import House, HouseFiles, PowerFigures, RuleOverride
from rigmint.rig.place import Position
from rigmint.words import Grade


@dataclass(frozen=True, slots=True)
class Library:
    """A library as loaded: its house settings, its catalogue, the folders that its rigs may refer to."""

    house: House
    catalogue: Catalogue
    roots: tuple[Path, ...]
    """Resolved folders inside which references must stay; empty without a library file."""
    faults: tuple[Fault, ...]
    """Faults of the library file and of files of the catalogue as a whole."""
    house_paths: HousePaths = NO_HOUSE_PATHS
    document: Document | None = None
    """The library file as read."""

    def position(self, *path: str | int) -> Position:
        """Where a key of the library file stands."""
        return self.document.position(path) if self.document is not None else Position(1, 1)


def find_library_file(rig_file: Path) -> Path | None:
    """`rigmint.yaml` in the rig's folder or the nearest one above; the search stops at a folder that holds `.git`
    and at a file-system boundary, so that a file planted above a checkout is never read."""
    found = find_library_above(os.fspath(resolve_path(rig_file).parent))
    return Path(found) if found is not None else None


def load_library(path: Path | None, parse: Parse = parse_yaml, beside: Sequence[Path] = ()) -> Library:
    """The library at `path`; without one, the installed catalogue and the defaults. `parse`: of the catalogue's files,
    text to document; `beside`: catalogue files that are read too, wherever they lie."""
    files = [(file, show_path(file)) for file in beside]
    if path is None:
        catalogue = Catalogue((), parse, files)
        return Library(House(), catalogue, (), catalogue.faults.in_order())
    shown = show_path(path)
    faults = FaultList()
    if not is_there(path):
        faults.add(shown, Position(1, 1), "file:no-library", f"there is no library file {shown}")
        return Library(House(file=shown), Catalogue((), parse, files), (), faults.in_order())
    text = read_text(path, shown, faults)
    document = parse_yaml(text, shown, faults) if text is not None else None
    decoded = decode_document(document, "library", faults) if document is not None else None
    root = resolve_path(path).parent
    if decoded is None or document is None:
        return Library(House(file=shown), Catalogue((), parse, files), (root,), faults.in_order())
    folders = []
    for index, name in enumerate(as_tuple(decoded.get("parts"))):
        folder = resolve_path(root / name)
        if is_folder(folder) and folder.is_relative_to(root):
            folders.append((folder, show_path(path.parent / name)))
        else:
            wrong = "is not there" if folder.is_relative_to(root) else "leads out of the library's folder"
            position = document.position(("parts", index))
            faults.add(shown, position, "file:unreadable", f"`parts:` names the folder {name}, which {wrong}")
    for index, says in find_impossible_dates(decoded.get("accepted", ())):
        faults.add(shown, document.position(("accepted", index, "until")), "file:bad-value", says)
    house_paths = find_house_files(document, decoded, (root, show_path(path.parent)), faults)
    catalogue = Catalogue(folders, parse, files, root=root)
    roots = (root, *(folder for folder, _ in folders))
    all_faults = (*faults.in_order(), *catalogue.faults.in_order())
    return Library(_build_house(decoded, document), catalogue, roots, all_faults, house_paths, document)


def show_path(path: Path) -> str:
    """A path as reports show it: relative to the working folder where it lies below it, with `/`."""
    absolute, here = os.path.abspath(path), os.getcwd()
    below = here.rstrip(os.sep) + os.sep
    shown = absolute.removeprefix(below) if absolute.startswith(below) else os.path.relpath(absolute, here)
    return shown.replace(os.sep, "/")


def _build_house(tree: Mapping[str, Any], document: Document) -> House:
    packs = tree.get("packs", {})
    files = tree.get("house", {})
    return House(
        file=document.file,
        title=tree.get("title"),
        packs_needed=as_tuple(packs.get("need")),
        packs_left_out=as_tuple(packs.get("without")),
        rules=freeze({code: _build_override(value) for code, value in tree.get("rules", {}).items()}),
        requires=build_requirements(tree.get("requires", ()), "library"),
        accepted=build_acceptances(
            tree.get("accepted", ()), "library", lambda index: document.position(("accepted", index))
        ),
        files=HouseFiles(files.get("rig"), files.get("part"), as_tuple(files.get("checks"))),
        power=PowerFigures(**tree.get("power", {})),
        leaves=freeze(tree.get("radio", {})),
        fail_on=Grade(tree.get("fail_on", Grade.FIGHT)),
        tapes=freeze(tree.get("labels", {}).get("tape", {})),
    )


def _build_override(value: Any) -> RuleOverride:
    if value == "off":
        return RuleOverride(is_off=True)
    grade = value.get("grade")
    parameters = {key: item for key, item in value.items() if key != "grade"}
    return RuleOverride(False, Grade(grade) if grade else None, freeze(parameters))
