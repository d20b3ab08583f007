"""Which code judges: rigmint's own, that of the packs, and whatever else of theirs is not installed for good."""

from __future__ import annotations

import os
import sys

from rigmint.library.catalogue import find_installed
from rigmint.library.schemas import find_schema_folder
from rigmint.lint.cache_store import make_key
from rigmint.lint.digests import CODE, INSTALLED, PARTS
from rigmint.lint.house_checks import MODULE_PREFIX
from rigmint.lint.inputs import Inputs
from rigmint.lint.packs import PackSet

_FOR_GOOD = frozenset({"site-packages", "dist-packages"})
"""Folders of which the list of what is installed tells enough: names and versions."""


def note_code(inputs: Inputs, packs: PackSet) -> str:
    """Note the code and the data of this installation, as they are loaded now; their digest.

    Packs are read file by file wherever they lie, also installed editable; of other packages, those that lie outside
    of the folders for installed ones. What a pack imports from there only while a rule runs is not seen.
    """
    names = {rule.check.__module__.partition(".")[0] for _, rule in packs.rules}
    files = [file for name in sorted({"rigmint", *names, *_list_loose()}) if (file := _find_file(name)) is not None]
    packages = {os.path.dirname(file) for file in files if os.path.basename(file) == "__init__.py"}
    folders = sorted({*packages, os.fspath(find_schema_folder())})
    outer = [folder for folder in folders if not _is_below(folder, folders)]
    catalogues = [os.path.abspath(folder) for folder, _ in find_installed()[0]]
    digests = [sys.version]
    digests += [inputs.note_tree(INSTALLED, os.path.abspath(folder)) for folder in dict.fromkeys(sys.path)]
    digests += [inputs.note_tree(CODE, folder) for folder in outer]
    digests += [inputs.note_tree(PARTS, folder) for folder in catalogues if not _is_below(folder, folders)]
    digests += [inputs.note_file(file) for file in files if not _is_below(file, folders)]
    return make_key("code", digests)


def _list_loose() -> list[str]:
    """Names of loaded packages that are neither Python's own nor installed for good."""
    standard = os.path.dirname(os.path.abspath(os.__file__))
    return [
        name
        for name in list(sys.modules)
        if "." not in name
        and name != "__main__"
        and not name.startswith(MODULE_PREFIX)  # a house's checks are files of its library
        and (file := _find_file(name)) is not None
        and not _is_below(file, [standard])
        and not _FOR_GOOD & set(file.split(os.sep))
    ]


def _find_file(name: str) -> str | None:
    """The source of a loaded module."""
    file = getattr(sys.modules.get(name), "__file__", None)
    return os.path.abspath(file) if isinstance(file, str) else None


def _is_below(path: str, folders: list[str]) -> bool:
    return any(path.startswith(folder + os.sep) for folder in folders)
