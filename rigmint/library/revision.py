"""The files of a library as they were at a revision, taken from git into a folder of their own."""

from __future__ import annotations

import io
import os
import subprocess
import tarfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from rigmint.library.paths import is_folder, resolve_path

_KEPT = ":(top,glob)**/*.[jy][sa][om][nl]"
"""What a rig can depend on: the `.yaml` files, and the `.json` schemas of a house. One pattern for both, since git
refuses to pack where one of several matches nothing."""
_MOST_BYTES = 200 * 2**20
_SECONDS = 60


class NoRevision(Exception):
    """Git cannot give the file at that revision; the message says why."""


@dataclass(frozen=True, slots=True)
class Revision:
    """What a repository held at a revision. `top` is the checkout's folder, `folder` where its files were laid down."""

    name: str
    top: Path
    folder: Path

    def locate(self, path: Path) -> Path:
        """Where a file of the checkout lies among the files of the revision. Raises NoRevision where it does not."""
        try:
            inside = resolve_path(path).relative_to(self.top)
        except ValueError as error:
            msg = f"{path} does not lie in the repository of {self.top.name}"
            raise NoRevision(msg) from error
        found = self.folder / inside
        if not found.is_file():
            msg = f"{inside.as_posix()} is not in `{self.name}`"
            raise NoRevision(msg)
        return found


def extract_revision(path: Path, name: str, folder: Path) -> Revision:
    """Lay down below `folder` what the repository of `path` held at a revision.

    Raises NoRevision where there is no git, no repository, no such revision, or nothing in it that a rig depends on.
    """
    if not is_folder(path.parent):
        msg = f"{path} lies in no folder"
        raise NoRevision(msg)
    shown = _run_git(path.parent, ["rev-parse", "--show-toplevel"], f"{path} lies in no git repository")
    top = resolve_path(Path(os.fsdecode(shown).rstrip("\n")))
    # `--end-of-options`: a revision that starts with `-` is a name, never an option.
    checked = ["rev-parse", "--verify", "--quiet", "--end-of-options", f"{name}^{{commit}}"]
    commit = _run_git(top, checked, f"git knows no revision `{name}`").decode().strip()
    archive = _run_git(top, ["archive", "--format=tar", commit, "--", _KEPT], f"`{name}` holds no rig files")
    _unpack(archive, folder)
    (folder / ".git").mkdir(exist_ok=True)  # the search for a library file stops here, as it does in the checkout
    return Revision(name, top, folder)


def _run_git(folder: Path, arguments: Sequence[str], fails: str) -> bytes:
    try:
        done = subprocess.run(
            ["git", "-C", str(folder), *arguments], capture_output=True, check=False, timeout=_SECONDS
        )
    except FileNotFoundError as error:
        msg = "git is not installed here"
        raise NoRevision(msg) from error
    except subprocess.TimeoutExpired as error:
        msg = f"git took longer than {_SECONDS} s"
        raise NoRevision(msg) from error
    if done.returncode != 0:
        raise NoRevision(fails)
    return done.stdout


def _unpack(archive: bytes, folder: Path) -> None:
    if len(archive) > _MOST_BYTES:
        msg = "the files of that revision are larger than 200 MB together"
        raise NoRevision(msg)
    with tarfile.open(fileobj=io.BytesIO(archive)) as tar:
        tar.extractall(folder, filter=_take_inside)


def _take_inside(member: tarfile.TarInfo, folder: str) -> tarfile.TarInfo | None:
    """Links that lead out of the folder are left out, as are devices: who needs one is told that it is not there."""
    try:
        return tarfile.data_filter(member, folder)
    except tarfile.FilterError:
        return None
