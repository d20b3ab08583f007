"""The engine: rules run in each setup, isolated, merged, regraded; and none can change the rig."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from typing import Any

import pytest

from rigmint.library.library_file import load_library
from rigmint.lint.case import Case
from rigmint.lint.engine import run_rules
from rigmint.lint.finding import Finding, Measured, Unknown
from rigmint.lint.packs import load_packs
from rigmint.lint.parameters import check_overrides
from rigmint.lint.rule import Parameter
from rigmint.rig.house import House, RuleOverride
from rigmint.rig.rig import Rig
from rigmint.study.studies import NotKnown
from rigmint.words import Grade
from tests.builders import make_rig
from tests.library import whole_rig
from tests.lint.rules import find_nothing, make_finding, make_pack, make_rule, run

PARTS = "house/box: {kind: camera, ports: {dc_in: {connector: 0b-2}}, settings: {mode: {values: [a, b], default: a}}}"


@pytest.fixture
def rig() -> Rig:
    """Two items in two setups."""
    return make_rig("kit: {one: house/box, two: house/box}\nsetups: {first: {}, second: {out: [two]}}", PARTS)


def finds(*findings: Finding | Unknown) -> Callable[[Case], Iterable[Finding | Unknown]]:
    """A check that finds this in every setup."""
    return lambda _case: findings


def test_a_rule_runs_in_every_setup_with_what_is_there(rig: Rig) -> None:
    def check(case: Case) -> Iterator[Finding]:
        for item in case.items:
            yield make_finding("house:a", item.name)

    found = run(rig, make_rule("house:a", check))

    assert [(one.finding.at, one.setups) for one in found.findings] == [
        ("one", ("first", "second")),
        ("two", ("first",)),
    ]
    assert (found.crashes, found.unknown) == ((), ())


def test_only_the_setups_that_are_asked_for(rig: Rig) -> None:
    found = run(rig, make_rule("house:a", finds(make_finding("house:a", "one"))), setups=["second"])

    assert [one.setups for one in found.findings] == [("second",)]


def raise_at_once(_case: Case) -> Iterable[Finding]:
    msg = "no such figure"
    raise KeyError(msg)


def raise_midway(_case: Case) -> Iterator[Finding]:
    yield make_finding("house:bad", "one")
    msg = "no such figure"
    raise RuntimeError(msg)


def leave(_case: Case) -> Iterable[Finding]:
    raise SystemExit(0)


@pytest.mark.parametrize(
    ("check", "says"),
    [
        (leave, "SystemExit: 0"),
        (raise_at_once, "KeyError: 'no such figure'"),
        (raise_midway, "RuntimeError: no such figure"),
        (lambda _case: None, "TypeError: 'NoneType' object is not iterable"),
        (lambda _case: ["fault"], "TypeError: it gave str where a Finding is due"),
        (finds(make_finding("house:other", "one")), "ValueError: it gave the code 'house:other', which it did not declare"),
        (finds(Unknown("house:other", "mass", "one", "")), "ValueError: it gave the code 'house:other', which it did not declare"),
        (finds(make_finding("house:bad", "one", grade=Grade.FIGHT)), "ValueError: it gave the grade fight, which it did not declare"),
    ],
)  # fmt: skip
def test_a_rule_that_fails_is_named_and_the_others_run(rig: Rig, check: Any, says: str) -> None:
    good = make_rule("house:good", finds(make_finding("house:good", "one")))
    found = run(rig, make_rule("house:bad", check), good)

    assert [(crash.code, crash.file, crash.says) for crash in found.crashes] == [
        ("rule:crashed", rig.file, f"rule house:bad of pack house 1.0 failed in setup first: {says}")
    ]
    assert [(one.finding.code, one.setups) for one in found.findings] == [("house:good", ("first", "second"))]


def test_the_interrupt_of_a_person_at_the_keyboard_is_let_through(rig: Rig) -> None:
    def interrupt(_case: Case) -> Iterable[Finding]:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        run(rig, make_rule("house:a", interrupt))


def test_a_figure_that_nobody_states_is_unknown_once(rig: Rig) -> None:
    def check(_case: Case) -> Iterator[Finding]:
        yield make_finding("house:a", "one")
        place = "one"
        raise NotKnown(place, "mass")

    found = run(rig, make_rule("house:a", check), make_rule("house:b", finds(Unknown("house:b", "turn", "two", "x"))))

    assert [(u.code, u.needs, u.at, u.says) for u in found.unknown] == [
        ("house:a", "mass", "one", "one does not state mass"),
        ("house:b", "turn", "two", "x"),
    ]
    assert (found.findings, found.crashes) == ((), ())


def test_one_finding_a_code_and_cause_with_the_others_in_also(rig: Rig) -> None:
    findings = [
        make_finding("house:a", "two", "P1", Grade.THIN),
        make_finding("house:a", "one", "P1", Grade.BURN, also=("three",)),
        make_finding("house:a", "one", "P2", Grade.DEAD),
        make_finding("house:b", "one", "P1", Grade.DEAD),
    ]
    rules = [make_rule("house:a", finds(*findings[:3])), make_rule("house:b", finds(findings[3]))]
    found = [
        (m.finding.code, m.finding.cause, m.finding.grade, m.finding.at, m.finding.also)
        for m in run(rig, *rules).findings
    ]

    assert found == [
        ("house:a", "P1", Grade.BURN, "one", ("three", "two")),
        ("house:a", "P2", Grade.DEAD, "one", ()),
        ("house:b", "P1", Grade.DEAD, "one", ()),
    ]


@pytest.mark.parametrize(
    ("first", "second", "value"),
    [
        (Measured(6.0, 5.5, "V"), Measured(16.8, 5.5, "V"), 16.8),
        (Measured(16.8, 5.5, "V"), Measured(6.0, 5.5, "V"), 16.8),
        (Measured(10.0, (11.0, 17.0), "V"), Measured(9.0, (11.0, 17.0), "V"), 9.0),
        (Measured(18.0, (11.0, 17.0), "V"), Measured(20.0, (11.0, 17.0), "V"), 20.0),
        (Measured(3.0, None, "A"), Measured(4.0, 3.5, "A"), 4.0),
    ],
)
def test_over_setups_the_worst_measured_speaks(rig: Rig, first: Measured, second: Measured, value: float) -> None:
    def check(case: Case) -> Iterator[Finding]:
        measured = {"first": first, "second": second}[case.setup.name]
        yield make_finding("house:a", "one", measured=measured)

    (found,) = run(rig, make_rule("house:a", check)).findings

    assert found.finding.measured is not None
    assert (found.finding.measured.value, found.setups) == (value, ("first", "second"))


@pytest.mark.parametrize(
    ("override", "grades"),
    [
        (None, [Grade.BURN, Grade.THIN]),
        (RuleOverride(grade=Grade.DEAD), [Grade.DEAD, Grade.THIN]),
        (RuleOverride(grade=Grade.TIDY), [Grade.TIDY, Grade.TIDY]),
        (RuleOverride(grade=Grade.HURT), [Grade.BURN, Grade.THIN]),
        (RuleOverride(is_off=True), []),
    ],
)
def test_a_library_caps_a_grade_or_turns_a_rule_off(
    rig: Rig, override: RuleOverride | None, grades: list[Grade]
) -> None:
    rule = make_rule(
        "house:a",
        finds(make_finding("house:a", "one", grade=Grade.BURN), make_finding("house:a", "two", grade=Grade.THIN)),
    )
    house = House(rules={"house:a": override} if override else {})

    assert [one.finding.grade for one in run(rig, rule, house=house).findings] == grades


PARAMETERS = {"at_least": Parameter(2700.0, "duration", "how long"), "most": Parameter(4.0, None, "how many")}


@pytest.mark.parametrize(
    ("stated", "read"),
    [
        ({}, {"at_least": 2700.0, "most": 4.0}),
        ({"at_least": "30 min"}, {"at_least": 1800.0, "most": 4.0}),
        ({"most": 7}, {"at_least": 2700.0, "most": 7.0}),
    ],
)
def test_parameters_of_a_rule(rig: Rig, stated: dict[str, object], read: dict[str, float]) -> None:
    seen: list[dict[str, float]] = []

    def check(case: Case) -> Iterable[Finding]:
        seen.append(dict(case.parameters))
        return ()

    house = House(rules={"house:a": RuleOverride(parameters=stated)})
    run(rig, make_rule("house:a", check, parameters=PARAMETERS), house=house, setups=["first"])

    assert seen == [read]


@pytest.mark.parametrize(
    ("code", "parameters", "fault"),
    [
        ("house:a", {"at_least": "30 min", "most": 3}, None),
        ("house:ab", {}, ("file:unknown-name", "`rules:` names `house:ab`, which no installed rule has: did you mean `house:a`?")),
        ("house:a", {"at_last": "30 min"}, ("file:unknown-key", "`house:a` has no parameter `at_last`: did you mean `at_least`?")),
        ("house:a", {"at_least": "30 V"}, ("file:wrong-unit", "`house:a`: `at_least`: `30 V` is a voltage; a duration is due here, in `s`, `ms`, `min`, `h`")),
        ("house:a", {"most": "3 V"}, ("file:wrong-unit", "`house:a`: `most`: `3 V` stands where a bare number is due")),
        ("house:a", {"most": True}, ("file:wrong-unit", "`house:a`: `most`: `True` stands where a bare number is due")),
    ],
)  # fmt: skip
def test_faults_of_overrides(code: str, parameters: dict[str, object], fault: tuple[str, str] | None) -> None:
    house = House(file="rigmint.yaml", rules={code: RuleOverride(parameters=parameters)})
    found = check_overrides(
        replace(load_library(None), house=house), {"house:a": make_rule("house:a", parameters=PARAMETERS)}
    )

    assert [(one.code, one.says) for one in found] == ([fault] if fault else [])


def set_item(case: Case) -> None:
    items: Any = case.rig.items
    items["one"] = None


def set_setting(case: Case) -> None:
    settings: Any = case.setup.settings
    settings["one", "mode"] = "b"


def set_title(case: Case) -> None:
    name = "title"
    setattr(case.rig, name, "mine")


def set_limit(case: Case) -> None:
    name = "survives"
    setattr(case.items[0].part.ports["dc_in"], name, None)


@pytest.mark.parametrize("change", [set_item, set_setting, set_title, set_limit])
def test_no_rule_can_change_the_rig(rig: Rig, change: Callable[[Case], None]) -> None:
    before = repr(rig)

    def check(case: Case) -> Iterable[Finding]:
        change(case)
        return ()

    found = run(rig, make_rule("house:a", check))

    assert [crash.code for crash in found.crashes] == ["rule:crashed"]
    assert repr(rig) == before


def test_the_installed_rules_leave_the_rig_as_it_was() -> None:
    rig = make_rig(whole_rig.RIG, whole_rig.PARTS)
    before = repr(rig)
    found = run_rules(rig, House(), load_packs().rules)

    assert found.crashes == ()
    assert repr(rig) == before


def test_what_does_not_find_is_quiet(rig: Rig) -> None:
    assert run_rules(rig, House(), make_pack(make_rule("house:a", find_nothing))).findings == ()
