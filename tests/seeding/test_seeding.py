"""A sample of the mistakes, of one seed: recall, false alarms, the noise budget; and that each of them can fail.

All of them: `python -m tests.seeding`.
"""

from __future__ import annotations

import ast
import os
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from rigmint import Finding, Grade
from rigmint.lint import run as lint_run
from rigmint.lint.packs import PackSet, load_packs
from rigmint.lint.rule import Rule
from tests.power.netlist import PROGRAM
from tests.seeding.base import make_stock, write_tree
from tests.seeding.codes import CODES, UNJUDGED
from tests.seeding.kinds.every import KINDS, Mutant, draw_mutants
from tests.seeding.run import Runner
from tests.seeding.table import Tally, count, write_tally, write_wrong

ROOT = Path(__file__).parents[2]
SEED, GENERATED, MUTANTS = 3, 1, 330
MOST_SECONDS = 300.0
"""A guard for a machine that is busy otherwise; the sample takes about a minute of one core."""

needs_ngspice = pytest.mark.skipif(
    PROGRAM is None and "RIGMINT_NEED_NGSPICE" not in os.environ, reason="ngspice is not installed"
)


@pytest.fixture(scope="module")
def runner(tmp_path_factory: pytest.TempPathFactory) -> Runner:
    """The library of sound rigs and wrong parts, checked and judged as it is."""
    return Runner(make_stock(tmp_path_factory.mktemp("seeding") / "library", GENERATED, SEED))


@pytest.fixture(scope="module")
def tally(runner: Runner, counted: list[str]) -> Tally:
    """The counts of the sample; they are printed at the end of the run."""
    mutants = draw_mutants(runner.stock.bases, SEED, 3, most=MUTANTS)
    found = count(runner.try_all(mutants, seconds=MOST_SECONDS))
    counted += [*write_tally(found, f"A sample of seed {SEED}"), *write_wrong(found)]
    return found


def test_the_sound_rigs_do_no_harm(runner: Runner) -> None:
    harms = {base.name: sorted(map(str, runner.judge_base(base))) for base in runner.stock.bases}

    assert {name: found for name, found in harms.items() if found} == {}


def test_writing_a_rig_does_not_change_what_is_said_of_it(runner: Runner) -> None:
    grave = {
        name: [one.code for one in report.findings if one.grade.is_at_least(Grade.FIGHT)]
        for name, report in runner.sound.items()
    }

    assert len(grave) >= 12
    assert {name: codes for name, codes in grave.items() if codes} == {}


def test_the_sample_is_wide(tally: Tally) -> None:
    assert len(KINDS) >= 100
    assert len(tally.kinds) >= 80
    assert tally.tried >= 200
    assert sum(row.faults for row in tally.kinds.values()) >= 100
    assert sum(row.harmless for row in tally.kinds.values()) >= 60


@needs_ngspice
@pytest.mark.parametrize("concern", sorted({told.concern for told in CODES.values()}))
def test_recall(tally: Tally, concern: str) -> None:
    assert tally.recall(concern) == 1.0, "\n".join(write_wrong(tally))


@needs_ngspice
def test_no_false_alarms(tally: Tally) -> None:
    assert dict(tally.alarms) == {}, "\n".join(write_wrong(tally))


def test_the_noise_budget_holds(tally: Tally) -> None:
    assert [says for says in tally.wrong if says.startswith("noise")] == []


def test_codes_are_those_that_rules_have() -> None:
    known = {rule.code for _, rule in load_packs().rules}
    grave = {rule.code for _, rule in load_packs().rules if rule.grades[0].is_at_least(Grade.FIGHT)}
    judged = {code for told in CODES.values() for code in told.own}

    assert judged | set(UNJUDGED) <= known
    assert sorted(grave - judged - set(UNJUDGED)) == []
    assert judged.isdisjoint(UNJUDGED)


def change_rule(monkeypatch: pytest.MonkeyPatch, code: str, check: Callable[..., Iterator[Finding]]) -> None:
    """Puts another function in the place of a rule's."""

    def change(rule: Rule) -> Rule:
        return replace(rule, check=check) if rule.code == code else rule

    def load() -> PackSet:
        found = load_packs()
        packs = tuple(replace(pack, rules=tuple(change(rule) for rule in pack.rules)) for pack in found.packs)
        return replace(found, packs=packs)

    monkeypatch.setattr(lint_run, "load_packs", load)


def say_nothing(_: object) -> Iterator[Finding]:
    """A blinded rule."""
    yield from ()


def draw_few(runner: Runner, kind: str, number: int = 8) -> list[Mutant]:
    """Mistakes of one kind."""
    found = [one for one in draw_mutants(runner.stock.bases, SEED, 2) if one.kind.name == kind]
    return found[:number]


BLINDED = {
    "voltage:over": ("a source of twice the volts", "over"),
    "polarity:reversed": ("an unprotected device wired plus first", "reversed"),
    "voltage:unpowered": ("drop a lead", "unpowered"),
    "owner:nobody": ("a link not paired", "nobody"),
    "drive:no-mesh": ("a motor of another gear", "mesh"),
}


@pytest.mark.parametrize("code", BLINDED)
def test_a_blinded_rule_is_missed(runner: Runner, monkeypatch: pytest.MonkeyPatch, code: str) -> None:
    kind, what = BLINDED[code]
    mutants = draw_few(runner, kind)
    seeing = count(runner.try_all(iter(mutants)))
    change_rule(monkeypatch, code, say_nothing)
    blind = count(runner.try_all(iter(mutants)))

    assert (seeing.missed[what], seeing.told[what] > 0) == (0, True)
    assert blind.missed[what] > 0


def test_a_rule_that_cries_wolf_is_a_false_alarm(runner: Runner, monkeypatch: pytest.MonkeyPatch) -> None:
    def cry(_: object) -> Iterator[Finding]:
        yield Finding(code="voltage:over", grade=Grade.BURN, says="Wolf.", at="camera", cause="camera")

    mutants = draw_few(runner, "another number", 4)
    change_rule(monkeypatch, "voltage:over", cry)
    found = count(runner.try_all(iter(mutants)))

    assert found.alarms_on_harmless["voltage:over"] == len(mutants) > 0


def test_a_rule_that_goes_on_and_on_is_noise(runner: Runner, monkeypatch: pytest.MonkeyPatch) -> None:
    def nag(_: object) -> Iterator[Finding]:
        for number in range(6):
            yield Finding(code="fit:unlatched", grade=Grade.THIN, says="Tie it.", at="camera", cause=f"camera.{number}")

    mutants = draw_few(runner, "another number", 4)
    change_rule(monkeypatch, "fit:unlatched", nag)
    found = count(runner.try_all(iter(mutants)))

    assert [says.partition(" (")[0] for says in found.wrong] == ["noise: 6 thin"] * len(mutants)


def list_imports(module: str, seen: set[str]) -> set[str]:
    """Every module that one of the tests' own imports, and what these import."""
    if module in seen or not module.startswith("tests."):
        return seen | {module}
    seen = seen | {module}
    text = (ROOT / f"{module.replace('.', '/')}.py").read_text(encoding="utf-8")
    for node in ast.walk(ast.parse(text)):
        named = [node.module] if isinstance(node, ast.ImportFrom) and node.module else []
        named += [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
        for name in named:
            seen = list_imports(name, seen)
    return seen


def test_the_judgement_shares_no_code_with_the_project() -> None:
    modules = list_imports("tests.seeding.judge.judge", set())

    assert {"tests.seeding.judge.hands", "tests.power.wire_up", "networkx"} <= modules
    assert [name for name in modules if name.partition(".")[0].startswith("rigmint")] == []


def test_the_same_seed_draws_the_same(runner: Runner) -> None:
    drawn = [
        [(one.says, write_tree(one.tree)) for one in draw_mutants(runner.stock.bases, seed, 1, most=40)]
        for seed in (3, 3, 4)
    ]

    assert drawn[0] == drawn[1] != drawn[2]


def test_generated_rigs_are_among_them(runner: Runner) -> None:
    assert sum(base.name.startswith("rig-") for base in runner.stock.bases) == GENERATED
