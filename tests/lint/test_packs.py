"""Packs: what is taken, refused, broken or missing, each by name and without losing the others."""

from __future__ import annotations

from importlib.metadata import EntryPoint
from types import ModuleType
from typing import Any

import pytest

from rigmint.lint.packs import ENTRY_POINTS, PACK_API, STANDARD_PACKS, PackSet, find_missing, load_packs
from rigmint.lint.rule import BadRule
from rigmint.words import Grade
from tests.lint.rules import make_module, make_rule, offer


def list_faults(found: PackSet) -> list[tuple[str, str, str]]:
    """Pack, code and sentence of each fault."""
    return [(fault.file, fault.code, fault.says) for fault in found.faults]


def list_rules(found: PackSet) -> dict[str, list[str]]:
    """Codes by pack."""
    return {pack.name: [rule.code for rule in pack.rules] for pack in found.packs}


def test_packs_are_loaded_by_name_with_their_rules_by_code(monkeypatch: pytest.MonkeyPatch) -> None:
    zeta = offer(
        monkeypatch, "zeta", make_module([make_rule("zeta:b"), make_rule("zeta:a")]), distribution="z", version="3"
    )
    alpha = offer(monkeypatch, "alpha", make_module([make_rule("alpha:a")]))
    found = load_packs([zeta, alpha])

    assert list(list_rules(found).items()) == [("alpha", ["alpha:a"]), ("zeta", ["zeta:a", "zeta:b"])]
    assert [(pack.version, pack.distributions) for pack in found.packs] == [("1.2", ("house-pack",)), ("3", ("z",))]
    assert found.faults == ()


def test_a_pack_that_two_distributions_offer_is_taken_once(monkeypatch: pytest.MonkeyPatch) -> None:
    module = make_module([make_rule("kestrel:a")])
    points = [offer(monkeypatch, "kestrel", module, distribution=name) for name in ("rigmint", "kestrel-pack")]
    found = load_packs(points)

    assert list_rules(found) == {"kestrel": ["kestrel:a"]}
    assert found.packs[0].distributions == ("kestrel-pack", "rigmint")


@pytest.mark.parametrize(
    ("api", "says"),
    [
        (
            PACK_API + 1,
            f"pack kestrel 1.2 was built for version {PACK_API + 1} of the pack contract;"
            f" this rigmint has version {PACK_API}",
        ),
        (
            None,
            "pack kestrel 1.2 was built without stating one (PACK_API) of the pack contract;"
            f" this rigmint has version {PACK_API}",
        ),
    ],
)
def test_a_pack_for_another_contract_is_refused(monkeypatch: pytest.MonkeyPatch, api: int | None, says: str) -> None:
    point = offer(monkeypatch, "kestrel", make_module([make_rule("kestrel:a")], api))
    found = load_packs([point])

    assert (list_rules(found), list_faults(found)) == ({}, [("kestrel", "pack:refused", says)])


def raise_error() -> list[object]:
    """What the hook of a faulty pack does."""
    msg = "no figures"
    raise LookupError(msg)


def leave() -> list[object]:
    """What the hook of a worse one does."""
    raise SystemExit(3)


@pytest.mark.parametrize(
    ("module", "says"),
    [
        (make_module([]), "pack kestrel 1.2 does not register: ValueError: it has no rules"),
        (make_module(["kestrel:a"]), "does not register: TypeError: `rigmint_rules` gave str where a Rule is due"),
        (make_module(raise_error), "pack kestrel 1.2 does not register: LookupError: no figures"),
        (make_module(leave), "pack kestrel 1.2 does not register: SystemExit: 3"),
        (
            make_module([], hook="rigmint_rulez"),
            "pack kestrel 1.2 does not register: PluginValidationError: unknown hook 'rigmint_rulez'",
        ),
    ],
)
def test_a_broken_pack_is_named_and_the_others_load(
    monkeypatch: pytest.MonkeyPatch, module: ModuleType, says: str
) -> None:
    other = offer(monkeypatch, "zeta", make_module([make_rule("zeta:a")]))
    found = load_packs([offer(monkeypatch, "kestrel", module), other])

    assert list_rules(found) == {"zeta": ["zeta:a"]}
    assert [(name, code) for name, code, _ in list_faults(found)] == [("kestrel", "pack:broken")]
    assert says in found.faults[0].says


@pytest.mark.parametrize(
    ("target", "says"),
    [
        ("rigmint_no_such_pack", "pack kestrel unknown cannot be imported: ModuleNotFoundError"),
        ("json:no_such_name", "pack kestrel unknown cannot be imported: AttributeError"),
    ],
)
def test_a_pack_that_cannot_be_imported(target: str, says: str) -> None:
    found = load_packs([EntryPoint("kestrel", target, ENTRY_POINTS)])

    assert [(name, code) for name, code, _ in list_faults(found)] == [("kestrel", "pack:broken")]
    assert found.faults[0].says.startswith(says)


def test_an_entry_point_that_is_no_module_states_no_contract() -> None:
    found = load_packs([EntryPoint("kestrel", "json:loads", ENTRY_POINTS)])

    assert [(name, code) for name, code, _ in list_faults(found)] == [("kestrel", "pack:refused")]


def test_a_code_of_two_packs_is_taken_from_neither(monkeypatch: pytest.MonkeyPatch) -> None:
    one = offer(monkeypatch, "kestrel", make_module([make_rule("shared:a"), make_rule("kestrel:a")]))
    two = offer(monkeypatch, "zeta", make_module([make_rule("shared:a"), make_rule("zeta:a")]))
    found = load_packs([two, one])

    assert list_rules(found) == {"kestrel": ["kestrel:a"], "zeta": ["zeta:a"]}
    assert list_faults(found) == [
        ("kestrel", "pack:refused", "the code `shared:a` is declared twice, by kestrel and zeta: none of them is run")
    ]


def test_a_code_twice_in_one_pack_is_taken_from_neither(monkeypatch: pytest.MonkeyPatch) -> None:
    found = load_packs([offer(monkeypatch, "kestrel", make_module([make_rule("kestrel:a"), make_rule("kestrel:a")]))])

    assert (list_rules(found), [code for _, code, _ in list_faults(found)]) == ({"kestrel": []}, ["pack:refused"])


@pytest.mark.parametrize(
    ("present", "needed", "left_out", "missing"),
    [
        ((*STANDARD_PACKS,), (), (), []),
        (STANDARD_PACKS[1:], (), (), [STANDARD_PACKS[0]]),
        (STANDARD_PACKS[1:], (), STANDARD_PACKS[:1], []),
        ((*STANDARD_PACKS,), ("kestrel",), (), ["kestrel"]),
        ((*STANDARD_PACKS, "kestrel"), ("kestrel",), (), []),
        ((), (), STANDARD_PACKS, []),
    ],
)
def test_missing_packs(
    monkeypatch: pytest.MonkeyPatch,
    present: tuple[str, ...],
    needed: tuple[str, ...],
    left_out: tuple[str, ...],
    missing: list[str],
) -> None:
    points = [offer(monkeypatch, name, make_module([make_rule(f"{name}:x")])) for name in present]
    found = find_missing(load_packs(points), needed, left_out)

    assert [(fault.file, fault.code) for fault in found] == [(name, "pack:missing") for name in missing]
    assert all((f"./rules/{fault.file}" in fault.says) is (fault.file in STANDARD_PACKS) for fault in found)


def test_a_broken_pack_is_not_missing_too(monkeypatch: pytest.MonkeyPatch) -> None:
    points = [offer(monkeypatch, STANDARD_PACKS[0], make_module([]))]
    found = find_missing(load_packs(points), (), STANDARD_PACKS[1:])

    assert found == ()


@pytest.mark.parametrize(
    ("code", "changes", "says"),
    [
        ("Kestrel:a", {}, "`Kestrel:a` is no code"),
        ("kestrel", {}, "`kestrel` is no code"),
        ("kestrel:a1", {}, "`kestrel:a1` is no code"),
        ("kestrel:a ", {}, "is no code"),
        ("kestrel:a", {"why": " "}, "kestrel:a must state why"),
        ("kestrel:a", {"title": "", "source": ""}, "kestrel:a must state title, source"),
        ("kestrel:a", {"grades": ()}, "kestrel:a must state grades"),
        ("kestrel:a", {"grades": (Grade.THIN, Grade.BURN)}, "kestrel:a must list its grades worst first"),
        ("kestrel:a", {"grades": (Grade.HURT,), "caution": None}, "it must carry a caution"),
    ],
)
def test_a_rule_that_is_not_whole_is_refused(code: str, changes: dict[str, Any], says: str) -> None:
    with pytest.raises(BadRule) as caught:
        make_rule(code, **changes)

    assert says in str(caught.value)
