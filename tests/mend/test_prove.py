"""What counts as a proof: the finding is gone, nothing at `thin` or worse has come, nothing crashed, nothing became
unknown, in any setup."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator

import pytest

from rigmint.lint.case import Case
from rigmint.lint.changes import SetSetting
from rigmint.lint.edits import find_fix_edits
from rigmint.lint.finding import Finding, Fix, Unknown
from rigmint.lint.packs import Pack, PackSet
from rigmint.lint.prove import Prover
from rigmint.lint.rule import Rule
from rigmint.words import Grade
from tests.builders import make_library, read_rig_text
from tests.lint.rules import make_finding, make_rule

TODAY = datetime.date(2026, 5, 2)
PARTS = "house/box: {kind: accessory, settings: {mode: {values: [bad, good], default: bad}}}"
RIG = """\
kit: {x: house/box}
settings: {x.mode: bad}  # here
setups: {day: {}, night: {}}
"""
FIX = Fix("Set x.mode to good.", (SetSetting("x", "mode", "good", "day"),))


def is_good(case: Case) -> bool:
    """Whether the fix has been made."""
    return case.setup.setting("x", "mode") == "good"


def find_bad(case: Case) -> Iterator[Finding]:
    """The finding that the fix clears."""
    if not is_good(case):
        yield make_finding("house:a", "x", "x.set.mode", fixes=(FIX,))


Second = Callable[[Case], Iterator[Finding | Unknown]]


def prove(second: Second, rig: str = RIG, first: Second = find_bad) -> bool:
    """Whether the fix is proved beside a second rule."""
    rules = (make_rule("house:a", first), make_rule("house:b", second, grades=tuple(Grade)))
    read = read_rig_text(rig, PARTS)
    prover = Prover(read, make_library(PARTS), make_packs(*rules), TODAY)
    assert prover.checked is not None
    merged = next(one for one in prover.checked.open if one.finding.code == "house:a")
    return prover.is_proved(merged, find_fix_edits(FIX, merged, read))


def make_packs(*rules: Rule) -> PackSet:
    return PackSet((Pack("house", "1.0", ("house",), rules),), ())


def find_nothing(_case: Case) -> Iterator[Finding]:
    yield from ()


def test_a_fix_that_clears_its_finding_is_proved() -> None:
    assert prove(find_nothing)


def test_one_that_leaves_it_is_not() -> None:
    def find_always(_case: Case) -> Iterator[Finding]:
        yield make_finding("house:a", "x", "x.set.mode", fixes=(FIX,))

    assert not prove(find_nothing, first=find_always)


def test_one_that_leaves_it_in_one_setup_is_not() -> None:
    def find_at_night(case: Case) -> Iterator[Finding]:
        if case.setup.name == "night" or not is_good(case):
            yield make_finding("house:a", "x", "x.set.mode", fixes=(FIX,))

    assert not prove(find_nothing, first=find_at_night)


@pytest.mark.parametrize(
    ("before", "after", "is_proved"),
    [
        # something new, by its grade
        (None, make_finding("house:b", "x", grade=Grade.THIN), False),
        (None, make_finding("house:b", "x", grade=Grade.BURN), False),
        (None, make_finding("house:b", "x", grade=Grade.TIDY), True),
        # what was there before, as it was, milder, or worse
        (make_finding("house:b", "x"), make_finding("house:b", "x"), True),
        (make_finding("house:b", "x"), make_finding("house:b", "x", grade=Grade.THIN), True),
        (make_finding("house:b", "x", grade=Grade.THIN), make_finding("house:b", "x"), False),
        (make_finding("house:b", "x", grade=Grade.TIDY), make_finding("house:b", "x", grade=Grade.THIN), False),
        # at another place, or by another cause
        (make_finding("house:b", "x"), make_finding("house:b", "y", "x"), False),
        (make_finding("house:b", "x", also=("y",)), make_finding("house:b", "y", "x"), True),
        (make_finding("house:b", "x"), make_finding("house:b", "x", also=("y",)), False),
        (make_finding("house:b", "x"), make_finding("house:b", "x", "P1"), False),
    ],
)
def test_what_may_be_there_afterwards(before: Finding | None, after: Finding, is_proved: bool) -> None:
    def find_second(case: Case) -> Iterator[Finding]:
        found = after if is_good(case) else before
        if found is not None:
            yield found

    assert prove(find_second) is is_proved


def test_a_finding_that_comes_in_a_second_setup_is_new() -> None:
    def find_in_more(case: Case) -> Iterator[Finding]:
        if case.setup.name == "day" or is_good(case):
            yield make_finding("house:b", "x")

    assert not prove(find_in_more)


def test_a_fix_under_which_a_rule_crashes_is_not_proved() -> None:
    def crash(case: Case) -> Iterator[Finding]:
        if is_good(case):
            raise RuntimeError
        yield from ()

    assert not prove(crash)


def test_a_fix_after_which_something_cannot_be_judged_is_not_proved() -> None:
    def lack(case: Case) -> Iterator[Unknown]:
        if is_good(case):
            yield Unknown("house:b", "mass", "x", "nobody knows")

    assert not prove(lack)


def test_a_fix_that_makes_an_accepted_finding_worse_than_signed_for_is_not_proved() -> None:
    rig = RIG + "accepted: [{code: 'house:b', at: x, why: meant, by: prep}]\n"

    def find_second(case: Case) -> Iterator[Finding]:
        yield make_finding("house:b", "x", grade=Grade.BURN if is_good(case) else Grade.THIN)

    def find_same(_case: Case) -> Iterator[Finding]:
        yield make_finding("house:b", "x", grade=Grade.THIN)

    assert prove(find_same, rig)
    assert not prove(find_second, rig)  # what can burn is signed for only until a day


def test_edits_that_the_file_does_not_take_are_not_proved() -> None:
    read = read_rig_text(RIG, PARTS)
    prover = Prover(read, make_library(PARTS), make_packs(make_rule("house:a", find_bad)), TODAY)
    assert prover.checked is not None
    (merged,) = prover.checked.open
    wrong = Fix("Set x.mode to ugly.", (SetSetting("x", "mode", "ugly", "day"),))

    assert not prover.is_proved(merged, find_fix_edits(wrong, merged, read))
