"""Packs as pytest sees them: the pyproject.toml of a pack is a file of tests, each check and each own rig is one.

The checks of a pack stand under the name of that file: `pyproject.toml::kestrel-house/units` can be run by itself.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cached_property, partial
from pathlib import Path
from typing import Any

import pytest

from rigmint.testing.cases import BadCase
from rigmint.testing.conformance import CHECKS
from rigmint.testing.own_rigs import judge_own_rig, list_own_rigs
from rigmint.testing.pack_folder import MANIFEST, PackUnderTest, open_pack_folder
from rigmint.testing.runs import Runs


class PackFaults(Exception):
    """What a pack does not hold to."""


class PackCollecting:
    """Collects the packs that a run names. `asked`: on the command line, so that they are run whatever else is;
    `stated`: in the settings, so that they are run where no path is named, or one that holds them."""

    def __init__(self, config: pytest.Config, asked: Sequence[Path], stated: Sequence[Path]) -> None:
        self.opened: dict[Path, list[PackUnderTest]] = {}
        self.folders = tuple(dict.fromkeys(folder.resolve() for folder in (*asked, *stated)))
        for folder in self.folders:
            if not (folder / MANIFEST).is_file():
                msg = f"rigmint: {folder} is no folder of a pack: it holds no {MANIFEST}"
                raise pytest.UsageError(msg)
        is_named = config.args_source is config.ArgsSource.ARGS
        wanted = asked if is_named else self.folders
        visited = [Path(config.invocation_params.dir, arg.partition("::")[0]).resolve() for arg in config.args]
        for folder in dict.fromkeys(path.resolve() for path in wanted):
            manifest = folder / MANIFEST
            if not any(manifest.is_relative_to(path) for path in visited):
                config.args.append(str(manifest))

    @cached_property
    def runs(self) -> Runs:
        """What is computed for all packs that were collected, when the first of their tests is run."""
        return Runs([one for packs in self.opened.values() for one in packs])

    def open(self, folder: Path) -> list[PackUnderTest]:
        """The packs of a folder. Raises BadCase as `open_pack_folder` does."""
        if folder not in self.opened:
            self.opened[folder] = open_pack_folder(folder)
        return self.opened[folder]

    def pytest_collect_file(self, file_path: Path, parent: pytest.Collector) -> pytest.Collector | None:
        """The pyproject.toml of a pack that is named, as a file of tests."""
        if file_path.name != MANIFEST or file_path.parent.resolve() not in self.folders:
            return None
        collected: PackFile = PackFile.from_parent(parent, path=file_path, collecting=self)
        return collected


class PackFile(pytest.File):
    """The pyproject.toml of a pack."""

    def __init__(self, *, collecting: PackCollecting, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.collecting = collecting

    def collect(self) -> Iterator[pytest.Item]:
        """A test for each check of each pack, and for each of its own rigs."""
        try:
            for one in self.collecting.open(self.path.parent.resolve()):
                for name, check in CHECKS.items():
                    yield self._make(one, name, partial(check, one))
                for rig in list_own_rigs(one):
                    what, _, role = rig.rpartition(".")
                    yield self._make(one, f"rigs/{what}[{role}]", partial(_judge_rig, one, rig))
        except BadCase as error:
            raise self.CollectError(str(error)) from error

    def _make(self, one: PackUnderTest, name: str, judge: Callable[[Runs], Iterable[str]]) -> PackItem:
        item: PackItem = PackItem.from_parent(self, name=f"{one.pack.name}/{name}", judge=judge)
        return item


class PackItem(pytest.Item):
    """One check of a pack."""

    def __init__(self, *, judge: Callable[[Runs], Iterable[str]], **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.judge = judge

    def runtest(self) -> None:
        """Raise PackFaults where the pack does not hold to it."""
        parent = self.getparent(PackFile)
        assert parent is not None
        faults = list(self.judge(parent.collecting.runs))
        if faults:
            raise PackFaults("\n".join(faults))

    def repr_failure(self, excinfo: pytest.ExceptionInfo[BaseException], style: Any = None) -> Any:
        """The faults, without a traceback through rigmint."""
        if isinstance(excinfo.value, (PackFaults, BadCase)):
            return str(excinfo.value)
        return super().repr_failure(excinfo, style)

    def reportinfo(self) -> tuple[Path, None, str]:
        """Where the test is from, for the report."""
        return self.path, None, self.name


def _judge_rig(one: PackUnderTest, rig: str, runs: Runs) -> Iterable[str]:
    return judge_own_rig(one, runs, rig)
