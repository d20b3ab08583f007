"""Rigs that stand in files: the corpus that comes with rigmint, and the rigs of a pack's own under `tests/rigs`.

A rig that shows a fault bears `# fault: CODE` on the line that is at fault; one without is sound.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import rigmint
from rigmint.library.build_rig import ReadRig, read_rig
from rigmint.library.faults import Fault
from rigmint.library.find_files import find_rig_files
from rigmint.library.library_file import Library, load_library
from rigmint.testing.cases import BadCase

FAULT_MARK = re.compile(r"# fault: (\S+)")
_SUFFIX = ".rig.yaml"


@dataclass(frozen=True, slots=True)
class Shelf:
    """A library with its rigs: `root` holds `rigmint.yaml`, and the rigs lie in the folders named."""

    root: Path
    folders: tuple[Path, ...]

    def list_files(self) -> dict[str, Path]:
        """Name to file of each rig: its path below the root, without `.rig.yaml`. Raises BadCase where there is none,
        or where the library has no file of its own."""
        if not (self.root / "rigmint.yaml").is_file():
            msg = f"{self.root} holds no rigmint.yaml, so its rigs would be judged by whatever library lies above it"
            raise BadCase(msg)
        files, faults = find_rig_files(self.folders)
        _refuse(faults)
        return {path.relative_to(self.root).as_posix().removesuffix(_SUFFIX): path for path in files}


@dataclass(frozen=True, slots=True)
class OpenShelf:
    """The rigs of a shelf as read, by name."""

    library: Library
    rigs: Mapping[str, ReadRig]


def find_corpus() -> Shelf:
    """The rigs that come with rigmint: sound ones, and for each rule of the standard packs one with its fault. They are
    the `examples` of a checkout."""
    package = Path(rigmint.__file__).parent
    installed, checkout = package / "corpus", package.parent
    if not installed.is_dir() and not ((checkout / "pyproject.toml").is_file() and (checkout / "examples").is_dir()):
        msg = "the corpus of rigs is missing from this installation of rigmint"
        raise FileNotFoundError(msg)
    root = installed if installed.is_dir() else checkout / "examples"
    return Shelf(root, (root / "rigs", root / "faults"))


def find_own_shelf(folder: Path) -> Shelf | None:
    """The rigs of a pack's own, which lies in `folder`; None where it has none."""
    root = folder / "tests" / "rigs"
    return Shelf(root, (root,)) if root.is_dir() else None


def read_shelf(shelf: Shelf) -> OpenShelf:
    """Every rig of a shelf. Raises BadCase where one, or the library, cannot be read whole."""
    library = load_library(shelf.root / "rigmint.yaml")
    rigs = {name: read_rig(path, library) for name, path in shelf.list_files().items()}
    owned = [fault for faults in library.catalogue.check_owned().values() for fault in faults]
    _refuse((*library.faults, *owned, *(fault for read in rigs.values() for fault in read.faults)))
    return OpenShelf(library, rigs)


def find_marks(text: str) -> list[tuple[int, str]]:
    """Line and code of each mark of a fault."""
    lines = enumerate(text.splitlines(), start=1)
    return [(number, match[1]) for number, line in lines if (match := FAULT_MARK.search(line))]


def _refuse(faults: tuple[Fault, ...]) -> None:
    if faults:
        listed = "\n".join(f"  {fault.file} line {fault.line}: {fault.code}: {fault.says}" for fault in faults)
        msg = f"it could not be read:\n{listed}"
        raise BadCase(msg)
