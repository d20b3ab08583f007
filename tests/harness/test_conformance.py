"""What every pack must hold to: a good pack holds to all of it, and each check sees the pack that does not."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from rigmint.testing import CHECKS, BadCase, open_pack_folder
from rigmint.testing.conformance import COST
from tests.harness.bad_packs import Changes, make_pack, name_pack, open_pack

GUIDE = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
Install = Callable[..., Path]

TEXT = "There is a plate."
LOOP = "    names = [item"
FINDING = (
    '        yield Finding("NAME:plate", Grade.TIDY, "There is a plate.", name, name, fixes=(Fix("Take it out."),))\n'
)
RULES = "    return [RULE]"
SECOND = "Rule('{code}', (Grade.TIDY,), 'A', 'B.', 'C.', 'D.', 'house rule', check)"


@pytest.fixture
def install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Install:
    """Makes a pack that is installed for the time of the test."""
    monkeypatch.syspath_prepend(tmp_path)

    def make(name: str, *module: tuple[str, str], **other: Changes) -> Path:
        return make_pack(tmp_path, name, module, **other)

    return make


def test_a_good_pack_holds_to_everything(install: Install) -> None:
    one, runs = open_pack(install("sound"))

    assert {name: list(check(one, runs)) for name, check in CHECKS.items()} == {name: [] for name in CHECKS}


DECLARED: list[tuple[str, tuple[str, str], str]] = [
    ("codes", (RULES, "    return [RULE, RULE]"), "is declared twice"),
    ("codes", (RULES, f"    return [RULE, {SECOND.format(code='voltage:plate')}]"), "`voltage` is the standard pack voltage's"),
    ("codes", (RULES, f"    return [RULE, {SECOND.format(code='polarity:reversed')}]"), "is a code of the pack polarity too"),
    ("texts", ('"Plates."', '"Plates"'), "`looks_for` must end as a sentence does"),
    ("texts", ('"They are heavy."', '"they are heavy."'), "`why` must begin with a capital letter"),
    ("texts", ('"Leave it in the case."', r'"Leave it.\nIn the case."'), "`put_right` must stand on one line"),
    ("texts", ('"They are heavy."', '"TODO: why."'), "`why` is still a placeholder"),
    ("texts", ('"A plate"', '"A plate."'), "`title` has no full stop"),
    ("texts", ('"plates that are borne"', '" "'), "the parameter most does not say what it is"),
    ("texts", ("grades=", "caution='...', grades="), "`caution` is still a placeholder"),
    ("sources", ('"house rule"', '"TBD"'), "`source` names nothing"),
    ("sources", ('"house rule"', '"n/a"'), "`source` names nothing"),
    ("readme", ('"A plate"', '"A heavy plate"'), "must hold once the row | `NAME:plate` | fight, tidy | A heavy plate |"),
    ("emitted", (RULES, f"    return [RULE, {SECOND.format(code='NAME:none')}]"), "NAME:none is declared and comes on no rig"),
    ("sentences", (TEXT, "There is a plate"), "is no sentence"),
    ("sentences", (TEXT, "It weighs 0.30000000000000004 kg."), "prints more digits than anybody measured"),
    ("sentences", ('fixes=(Fix("Take it out."),)', "fixes=()"), "offers no remedy"),
    ("sentences", ("Take it out.", "Take it out"), "has a remedy that is no sentence"),
    ("sound-rigs", ("Grade.TIDY, \"There", "Grade.FIGHT, \"There"), "is sound, and fight NAME:plate came at plate"),
    ("sound-rigs", (LOOP, f"    assert 'sound' == case.rig.title\n{LOOP}"), "rule NAME:plate of pack NAME 1.0 failed"),
    ("faulty-rigs", (LOOP, f"    assert 'faults' not in case.rig.file\n{LOOP}"), "on corpus/faults/polarity-reversed-lamp: rule"),
    ("faulty-rigs", ('Finding("NAME:plate"', 'Finding("NAME:other"'), "it gave the code 'NAME:other', which it did not declare"),
    ("faulty-rigs", ("Grade.TIDY, \"There", "Grade.BURN, \"There"), "it gave the grade burn, which it did not declare"),
    ("determinism", (FINDING, f"        RUNS.append(1)\n        if len(RUNS) % 2:\n    {FINDING}\n\nRUNS = []\n"), "is judged otherwise a second time"),
    ("determinism", (f'"{TEXT}"', '" ".join({item.name for item in case.items} | set("abcdefghij")) + "."'), "with another seed of hashes"),
    ("units", (f'"{TEXT}"', 'f"{sum(item.part.mass or 0.1 for item in case.items)!r} kg."'), "written in other units is judged otherwise"),
    ("speed", (LOOP, f"    sum(range(20_000_000))\n{LOOP}"), "times as long as all other packs together"),
]  # fmt: skip


def test_the_guide_lists_every_check() -> None:
    rows = re.findall(r"(?m)^\| (`[^|]+`) \| [^|]+ \|$", GUIDE.partition("## Add a pack")[2].partition("\n## ")[0])

    assert [name for row in rows for name in re.findall(r"`([^`]+)`", row)] == list(CHECKS)


def test_the_guide_shows_a_test_that_passes() -> None:
    block = re.search(r"```python\n(from rigmint\.testing .*?)```", GUIDE, re.DOTALL)

    assert block is not None
    assert "assert_finds(" in block[1]
    exec(block[1], {})


@pytest.mark.parametrize("number", range(len(DECLARED)))
def test_a_bad_pack_is_seen(install: Install, number: int) -> None:
    check, change, says = DECLARED[number]
    name = name_pack("bad", number)
    one, runs = open_pack(install(name, change))
    faults = "\n".join(CHECKS[check](one, runs))

    assert says.replace("NAME", name) in faults


def test_every_check_is_seen_to_fail() -> None:
    assert {check for check, _, _ in DECLARED} | {"tests"} == set(CHECKS)


def test_a_rule_without_tests_is_seen(install: Install) -> None:
    bare = dict.fromkeys(("plate.shows.rig.yaml", "plate.right.rig.yaml"))
    one, runs = open_pack(install("untested", rigs={**bare, "other.right.rig.yaml": "rigmint: 1\nrig: A\nkit: {}\n"}))

    assert list(CHECKS["tests"](one, runs)) == [
        "untested:plate has no rig in tests/rigs with `# fault: untested:plate`, and no tests/test_pack_untested.py"
    ]


def test_a_row_of_no_rule_is_seen(install: Install) -> None:
    one, runs = open_pack(install("rows", readme=(("A plate |\n", "A plate |\n| `NAME:gone` | tidy | Gone |\n"),)))

    assert list(CHECKS["readme"](one, runs)) == ["README.md has a row of no rule: | `rows:gone` | tidy | Gone |"]


def test_the_dearest_standard_rule_is_well_within_its_budget() -> None:
    one, runs = open_pack(Path(__file__).parents[2] / "rules" / "prep")

    assert 0 < runs.measure(one)["misplug:burns"] < 0.8 * COST


@pytest.mark.parametrize(
    ("manifest", "says"),
    [
        ("", "names no pack"),
        ("[project", "cannot be read"),
        ('[project.entry-points."rigmint.packs"]\nnone-such = "none_such"\n', "no pack `none-such` is installed"),
    ],
)
def test_a_folder_without_an_installed_pack_is_no_case(tmp_path: Path, manifest: str, says: str) -> None:
    (tmp_path / "pyproject.toml").write_text(manifest, encoding="utf-8")

    with pytest.raises(BadCase, match=says):
        open_pack_folder(tmp_path)


def test_a_pack_that_cannot_be_imported_is_no_case(install: Install) -> None:
    folder = install("broken", ("PACK_API = 1", "import rigmint_none_such"))

    with pytest.raises(BadCase, match="No module named 'rigmint_none_such'"):
        open_pack_folder(folder)
