"""All that is computed for the packs of one test session, each run once, when it is first asked for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property

from rigmint.library.library_file import show_path
from rigmint.lint.results import FileReport
from rigmint.lint.run import check_paths
from rigmint.testing.cases import DAY, BadCase, refuse_unread
from rigmint.testing.judging import Judgements, find_own_shelves, judge_shelves
from rigmint.testing.other_seed import judge_with_other_seed
from rigmint.testing.other_units import read_in_other_units
from rigmint.testing.pack_folder import PackUnderTest
from rigmint.testing.rule_costs import measure_costs
from rigmint.testing.shelves import OpenShelf, Shelf, find_corpus, read_shelf


class Runs:
    """The runs of the packs named, shared by all their checks. `corpus`: the rigs that all are judged on."""

    def __init__(self, packs: Sequence[PackUnderTest], corpus: Shelf | None = None) -> None:
        if not packs:
            msg = "there are no packs to judge"
            raise BadCase(msg)
        self.packs = tuple(packs)
        self.corpus = corpus if corpus is not None else find_corpus()
        self._own_reports: dict[str, Mapping[str, FileReport]] = {}

    @cached_property
    def judgements(self) -> Judgements:
        """What each pack finds by itself on the corpus and on its own rigs."""
        own = {name: read_shelf(shelf) for name, shelf in find_own_shelves(self.packs).items()}
        return judge_shelves(self.packs, self._opened_corpus, own, twice=True)

    @cached_property
    def in_other_units(self) -> Judgements:
        """The same, of the same rigs in other units."""
        own = {name: read_in_other_units(shelf) for name, shelf in find_own_shelves(self.packs).items()}
        return judge_shelves(self.packs, read_in_other_units(self.corpus), own)

    @cached_property
    def with_other_seed(self) -> Mapping[str, Mapping[str, str]]:
        """The same, as text, in a process with another seed of hashes."""
        return judge_with_other_seed(self.packs, self.corpus)

    def measure(self, one: PackUnderTest) -> dict[str, float]:
        """Code to what a rule of the pack costs, as a share of what all other packs cost together."""
        return measure_costs(one, self._opened_corpus)

    def check_own(self, one: PackUnderTest) -> Mapping[str, FileReport]:
        """The report of each of a pack's own rigs, as `rigmint check` gives it with every installed pack."""
        name = one.pack.name
        if name not in self._own_reports:
            self._own_reports[name] = _check_shelf(one.own_shelf) if one.own_shelf is not None else {}
        return self._own_reports[name]

    @cached_property
    def _opened_corpus(self) -> OpenShelf:
        return read_shelf(self.corpus)


def _check_shelf(shelf: Shelf) -> dict[str, FileReport]:
    files = shelf.list_files()
    report = check_paths(list(files.values()), library=None, today=DAY, setup=None, prove=False, house_checks=True)
    refuse_unread(report)
    by_file = {one.file: one for one in report.files}
    return {name: by_file[show_path(path)] for name, path in files.items()}
