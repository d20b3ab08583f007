"""House checks: rules in a file of the library, run only when the run says so, and kept from everything else."""

from __future__ import annotations

import datetime
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from rigmint.commands import main
from rigmint.lint.results import Report
from rigmint.lint.run import check_paths

DAY = datetime.date(2026, 5, 2)
LIBRARY = "rigmint_library: 1\nhouse:\n  checks: [CHECKS]\nrules:\n  tidy:unused-item: off\n"
RIG = "rigmint: 1\nrig: Saltmarsh\nkit:\n  plate: generic/plate-wedge-two-tap\n"
RULE = """\
from rigmint import Finding, Grade, Rule

def find(case):
    for item in case.items:
        yield Finding("CODE", Grade.FIGHT, f"{item.name} is there.", item.name, item.name)

def make(code, check=find):
    return Rule(code, (Grade.FIGHT,), "A", "B.", "C.", "D.", "house rule", check)
"""
GOOD = RULE.replace("CODE", "desk:there") + 'RULES = (make("desk:there"),)\n'


def lay_down(folder: Path, **checks: str) -> Path:
    """A library with these files of checks, by name, and one rig."""
    (folder / "house").mkdir(parents=True)
    for name, text in checks.items():
        (folder / "house" / f"{name}.py").write_text(text, encoding="utf-8")
    listed = ", ".join(f"house/{name}.py" for name in checks)
    (folder / "rigmint.yaml").write_text(LIBRARY.replace("CHECKS", listed), encoding="utf-8")
    (folder / "a.rig.yaml").write_text(RIG, encoding="utf-8")
    return folder


def run(*folders: Path, house_checks: bool | None = True) -> Report:
    return check_paths(folders, library=None, today=DAY, setup=None, prove=False, house_checks=house_checks)


def list_codes(report: Report) -> list[str]:
    return [finding.code for file in report.files for finding in file.findings]


def list_faults(report: Report) -> list[tuple[str, str]]:
    """Code and sentence of what is tied to no rig, with paths below the working folder."""
    return [(fault.code, fault.says) for fault in report.unread]


@pytest.fixture(autouse=True)
def stand_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Paths in messages are relative to the working folder."""
    monkeypatch.chdir(tmp_path)


def test_checks_run_where_the_run_says_so() -> None:
    report = run(lay_down(Path("lib"), good=GOOD))

    assert (list_codes(report), list_faults(report)) == (["desk:there"], [])
    assert report.files[0].findings[0].position.line == 4
    assert report.status(strict=False) == 1
    assert "lib/house/good.py" in report.packs
    assert "desk:there" in report.codes["lib/a.rig.yaml"]


def test_checks_do_not_run_where_the_run_says_so() -> None:
    report = run(lay_down(Path("lib"), bad="raise SystemExit(7)"), house_checks=False)

    assert (list_codes(report), list_faults(report), report.status(strict=False)) == ([], [], 0)
    assert report.checks_left_out == ("house/bad.py",)


def test_a_run_that_does_not_say_checks_other_libraries_and_ends_with_2() -> None:
    marker = Path("was-run")
    one = lay_down(Path("one"), bad=f"open({str(marker)!r}, 'w').close()")
    two = Path("two")
    two.mkdir()
    (two / "rigmint.yaml").write_text("rigmint_library: 1\n", encoding="utf-8")
    (two / "b.rig.yaml").write_text(RIG, encoding="utf-8")
    report = run(one, two, house_checks=None)
    (fault,) = report.unread

    assert [file.file for file in report.files] == ["two/b.rig.yaml"]
    assert (fault.file, fault.line, fault.code) == ("one/rigmint.yaml", 3, "library:unsaid")
    assert "`--house-checks`" in fault.says
    assert "1 rig file of this library not checked" in fault.says
    assert report.status(strict=False) == 2
    assert not marker.exists()


def test_checks_of_one_library_do_not_judge_rigs_of_another() -> None:
    one, two = lay_down(Path("one"), good=GOOD), lay_down(Path("two"), other=GOOD.replace("desk:", "shop:"))
    report = run(one, two)

    assert [(file.file, [finding.code for finding in file.findings]) for file in report.files] == [
        ("one/a.rig.yaml", ["desk:there"]),
        ("two/a.rig.yaml", ["shop:there"]),
    ]


HOOK = GOOD.replace(
    "RULES = ", "from rigmint import hookimpl\nPACK_API = 1\n@hookimpl\ndef rigmint_rules():\n    return "
)


@pytest.mark.parametrize(
    "text",
    [
        HOOK,
        GOOD + "PACK_API = 1\n",
        # Dataclasses look their own module up.
        GOOD + "from dataclasses import dataclass\n@dataclass\nclass Tape:\n    colour: 'str' = 'red'\n",
        "from __future__ import annotations\n" + GOOD,
    ],
)
def test_ways_to_state_rules(text: str) -> None:
    report = run(lay_down(Path("lib"), good=text))

    assert (list_codes(report), list_faults(report)) == (["desk:there"], [])


BROKEN = [
    ("raise LookupError('no figures')", "pack:broken", "house checks lib/house/bad.py cannot be run: LookupError: no figures"),
    ("import sys; sys.exit(3)", "pack:broken", "house checks lib/house/bad.py cannot be run: SystemExit: 3"),
    ("class Odd(BaseException): pass\nraise Odd", "pack:broken", "house checks lib/house/bad.py cannot be run: Odd"),
    ("def f(:", "pack:broken", "house checks lib/house/bad.py cannot be run: SyntaxError: invalid syntax (bad.py, line 1)"),
    ("x = 1", "pack:broken", "house checks lib/house/bad.py state no rules: `RULES = (Rule(...),)`, or `rigmint_rules` as in a pack"),
    ("RULES = ()", "pack:broken", "house checks lib/house/bad.py cannot be used: ValueError: it has no rules"),
    ("RULES = 5", "pack:broken", "house checks lib/house/bad.py cannot be used: TypeError: 'int' object is not iterable"),
    ("RULES = ['a']", "pack:broken", "cannot be used: TypeError: `rigmint_rules` gave str where a Rule is due"),
    (GOOD + "PACK_API = 2", "pack:refused", "were written for version 2 of the pack contract; this rigmint has version 1"),
    (HOOK.replace("PACK_API = 1", ""), "pack:refused", "was built without stating one (PACK_API)"),
    (HOOK + "RULES = ()", "pack:broken", "state both `RULES` and `rigmint_rules`: one of them is enough"),
    (GOOD.replace('make("desk:there")', 'make("file:mine")'), "pack:broken", "`file:mine`: the family `file` is the core's own"),
    ("import good", "pack:broken", "a file of house checks stands alone: what is spread over several files is packaged as a pack"),
    ("import rigmint_none_such", "pack:broken", "cannot be run: ModuleNotFoundError: No module named 'rigmint_none_such'"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "code", "says"), BROKEN)
def test_a_file_that_fails_is_named_and_the_others_run(text: str, code: str, says: str) -> None:
    report = run(lay_down(Path("lib"), bad=text, good=GOOD))
    (fault,) = report.unread

    assert list_codes(report) == ["desk:there"]
    assert (fault.file, fault.code) == ("lib/house/bad.py", code)
    assert says in fault.says
    assert report.status(strict=False) == 2


CRASHES = [
    ("def bad(case):\n    raise LookupError('no figures')\n    yield", "LookupError: no figures"),
    ("def bad(case):\n    raise SystemExit(3)", "SystemExit: 3"),
    ("class Odd(BaseException): pass\ndef bad(case):\n    raise Odd", "Odd"),
    ("def bad(case):\n    return 5", "TypeError: 'int' object is not iterable"),
    ("def bad(case):\n    yield 'desk:bad'", "TypeError: it gave str where a Finding is due"),
    ("def bad(case):\n    yield from find(case)", "ValueError: it gave the code 'desk:there', which it did not declare"),
    ("def bad():\n    return ()", "TypeError: bad() takes 0 positional arguments but 1 was given"),
    ("def bad(case):\n    yield Finding('desk:bad', Grade.BURN, 'a', 'plate', 'plate')", "ValueError: it gave the grade burn, which it did not declare"),
    ("def bad(case):\n    yield Finding('desk:bad', 'fight', 'a', 'plate', 'plate')", "TypeError: `grade` is 'fight' where a Grade is due"),
    ("def bad(case):\n    yield Finding('desk:bad', Grade.FIGHT, 'a', 'plate', None)", "TypeError: `cause` is None where a text is due"),
    ("def bad(case):\n    yield Finding('desk:bad', Grade.FIGHT, '', 'plate', 'plate')", "TypeError: `says` is '' where a text is due"),
    ("def bad(case):\n    yield Finding('desk:bad', Grade.FIGHT, 'a', 'plate', 'plate', also=['x'])", "TypeError: `also` is ['x'] where a tuple of str is due"),
    ("def bad(case):\n    yield Finding('desk:bad', Grade.FIGHT, 'a', 'plate', 'plate', fixes=('x',))", "TypeError: `fixes` is ('x',) where a tuple of Fix is due"),
    (
        "from rigmint import Measured\ndef bad(case):\n    yield Finding('desk:bad', Grade.FIGHT, 'a', 'plate', 'plate', measured=Measured(float('nan'), 1.0, 'V'))",
        "ValueError: `measured` holds nan where a finite number is due",
    ),
    (
        "from rigmint import Fix, SwapEnds\ndef bad(case):\n    yield Finding('desk:bad', Grade.FIGHT, 'a', 'plate', 'plate', fixes=(Fix('b', (SwapEnds('P9'),)),))",
        "ValueError: its fix SwapEnds(label='P9') does not fit the rig: EditRefused: there is no lead P9",
    ),
    (
        "from rigmint import Fix\ndef bad(case):\n    yield Finding('desk:bad', Grade.FIGHT, 'a', 'plate', 'plate', fixes=(Fix('b', ('x',)),))",
        "TypeError: a fix holds str where a change is due",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("check", "says"), CRASHES)
def test_a_rule_that_fails_is_named_and_the_others_run(check: str, says: str) -> None:
    text = GOOD.replace("RULES = (", f'{check}\nRULES = (make("desk:bad", bad), ')
    report = run(lay_down(Path("lib"), good=text))
    (file,) = report.files

    assert list_codes(report) == ["desk:there"]
    assert [fault.code for fault in file.unread] == ["rule:crashed"]
    assert file.unread[0].says.startswith("rule desk:bad of pack lib/house/good.py ")
    assert file.unread[0].says.endswith(f" failed in setup as_wired: {says}")
    assert report.status(strict=False) == 2


def test_a_code_of_a_pack_stays_the_packs() -> None:
    text = GOOD.replace("desk:there", "tidy:there").replace("RULES = (", 'RULES = (make("voltage:over"), ')
    report = run(lay_down(Path("lib"), good=text))
    (fault,) = report.unread

    assert list_codes(report) == ["tidy:there"]
    assert fault.code == "pack:refused"
    assert fault.says.startswith(
        "house checks lib/house/good.py declare `voltage:over`, which is a rule of the pack voltage "
    )


def test_a_code_of_two_files_is_taken_from_neither() -> None:
    other = GOOD + 'RULES = (*RULES, make("desk:other", lambda case: ()))\n'
    report = run(lay_down(Path("lib"), one=GOOD, two=other))

    assert list_codes(report) == []
    assert list_faults(report) == [
        (
            "pack:refused",
            "the code `desk:there` is declared twice, by lib/house/one.py and lib/house/two.py: none of them is run",
        )
    ]


def test_the_library_grades_and_sets_what_its_checks_report() -> None:
    folder = lay_down(Path("lib"), good=GOOD)
    with (folder / "rigmint.yaml").open("a", encoding="utf-8") as library:
        library.write("  desk:there: {grade: tidy}\n")
    report = run(folder)

    assert [str(finding.grade) for finding in report.files[0].findings] == ["tidy"]
    assert report.status(strict=False) == 0


def test_nothing_is_left_behind_and_nothing_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    path = list(sys.path)
    noisy = "print('while read')\n" + GOOD.replace("    for item", "    print('while run')\n    for item")
    run(lay_down(Path("lib"), good=noisy))
    printed = capsys.readouterr()

    assert sys.path == path
    assert sorted(one.name for one in Path("lib/house").iterdir()) == ["good.py"]
    assert (printed.out, printed.err) == ("", "while read\nwhile run\n")


@pytest.mark.parametrize(
    ("arguments", "status", "says"),
    [
        (["--house-checks"], 0, "pack house/good.py "),
        ([], 2, "those of a library's own checks are explained with `--house-checks`"),
    ],
)
def test_explain_knows_house_checks(
    monkeypatch: pytest.MonkeyPatch, arguments: list[str], status: int, says: str
) -> None:
    monkeypatch.chdir(lay_down(Path("lib"), good=GOOD))
    result = CliRunner().invoke(main, ["explain", "desk:there", *arguments])

    assert result.exit_code == status
    assert says in result.output
