"""Where paths lead. None of this raises, whatever a file or a command line names: a link that leads to itself, a name
with a null character or of ten thousand letters."""

from __future__ import annotations

import os
from pathlib import Path


def resolve_path(path: Path) -> Path:
    """Absolute, through links as far as they lead. What no file can be called stays as it is."""
    try:
        return Path(os.path.realpath(path))
    except (OSError, ValueError):
        return path.absolute()


def is_folder(path: Path) -> bool:
    """Whether there is a folder."""
    return os.path.isdir(path)


def is_there(path: Path) -> bool:
    """Whether there is a file, a folder or anything else."""
    return os.path.exists(path)
