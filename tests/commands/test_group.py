"""The command line as a whole: what it imports, help, version, colour, a reader that goes away."""

from __future__ import annotations

import os
import pty
import re
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest
from click.testing import CliRunner

from rigmint.commands import main
from rigmint.commands.group import COMMANDS
from rigmint.commands.output import choose_style

ROOT = Path(__file__).parents[2]
HEAVY = ("pint", "networkx", "numpy", "ruamel", "jsonschema", "pluggy")
RUN = "import sys; from rigmint.commands import main; main()"
SHOW = """
import sys, click
from rigmint.commands.output import choose_style, write_output
from rigmint.report.text import render_report
from tests.report.results import *
style = choose_style(plain='plain' in sys.argv)
write_output(render_report(make_report(make_file(findings=(OVER,) * int(sys.argv[1]))), style), None, style)
sys.exit(1)
"""


def environment(**changes: str) -> dict[str, str]:
    kept = {key: value for key, value in os.environ.items() if key not in ("NO_COLOR", "TERM", "COLUMNS")}
    return {**kept, "PYTHONPATH": str(ROOT), "TERM": "xterm", **changes}


@pytest.mark.parametrize("argument", ["--version", "--help"])
def test_version_and_help_import_nothing_heavy(argument: str) -> None:
    program = f"""
import sys
sys.argv = ["rigmint", "{argument}"]
from rigmint.commands import main
try:
    main()
except SystemExit as stop:
    print(stop.code, *sorted(name for name in sys.modules), sep="\\n")
"""
    ran = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, env=environment(), cwd=ROOT
    )
    lines = ran.stdout.splitlines()
    status = lines.index("0")
    tops = {name.partition(".")[0] for name in lines[status:]}
    ours = {name for name in lines[status:] if name.startswith("rigmint.")}

    assert ran.stderr == ""
    assert tops & set(HEAVY) == set()
    assert {top for top in tops if top.startswith("rigmint_")} == set()
    assert ours <= {"rigmint.commands", "rigmint.commands.group", "rigmint.commands.version"}


def test_every_command_has_a_line_in_the_help_and_its_own_help_says_the_same() -> None:
    listed = " ".join(CliRunner().invoke(main, ["--help"]).stdout.split())

    for name, line in COMMANDS.items():
        command = import_module(f"rigmint.commands.{name}").command
        assert (command.name, command.short_help) == (name, line)
        assert f" {name} {line}" in listed
        assert CliRunner().invoke(main, [name, "--help"]).exit_code == 0


def test_version_is_one_line() -> None:
    result = CliRunner().invoke(main, ["--version"])

    assert result.exit_code == 0
    assert re.fullmatch(r"rigmint (\d+\.\d+\.\d+\S*|unknown)\n", result.stdout)


@pytest.mark.parametrize("arguments", [["chek"], ["--nonsense"]])
def test_wrong_usage_is_status_2(arguments: list[str]) -> None:
    result = CliRunner().invoke(main, arguments)

    assert (result.exit_code, result.stdout) == (2, "")


@pytest.mark.parametrize(
    ("changes", "arguments", "is_coloured"),
    [
        ({}, [], True),
        ({"NO_COLOR": "1"}, [], False),
        ({"NO_COLOR": ""}, [], True),
        ({"TERM": "dumb"}, [], False),
        ({}, ["plain"], False),
    ],
)
def test_colour_on_a_terminal(changes: dict[str, str], arguments: list[str], is_coloured: bool) -> None:
    ours, theirs = pty.openpty()
    with subprocess.Popen(
        [sys.executable, "-c", SHOW, "1", *arguments], stdout=theirs, env=environment(**changes), cwd=ROOT
    ) as child:
        os.close(theirs)
        output = _read_all(ours)
    os.close(ours)

    assert child.returncode == 1
    assert b"voltage:over" in output
    assert (b"\x1b[1;31mburn\x1b[0m" in output) is is_coloured
    assert is_coloured or b"\x1b" not in output


def _read_all(descriptor: int) -> bytes:
    """What comes through a terminal, which on Linux ends in an error when the other side closes."""
    chunks = []
    try:
        while chunk := os.read(descriptor, 65536):
            chunks.append(chunk)
    except OSError:
        pass
    return b"".join(chunks)


def test_no_colour_into_a_pipe() -> None:
    ran = subprocess.run([sys.executable, "-c", SHOW, "1"], capture_output=True, env=environment(), cwd=ROOT)

    assert ran.returncode == 1
    assert b"voltage:over" in ran.stdout
    assert b"\x1b" not in ran.stdout


def test_no_colour_into_a_file(tmp_path: Path) -> None:
    assert not choose_style(plain=False, out=tmp_path / "report.txt").colour


def test_a_broken_pipe_ends_quietly_and_keeps_the_status() -> None:
    with subprocess.Popen(
        [sys.executable, "-c", SHOW, "5000"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env=environment(),
        cwd=ROOT,
    ) as child:
        assert child.stdout is not None
        assert child.stderr is not None
        child.stdout.read(10)
        child.stdout.close()
        errors = child.stderr.read()

    assert (child.returncode, errors) == (1, b"")


def test_a_terminal_that_lacks_a_letter_gets_its_escape() -> None:
    program = (
        "from rigmint.commands.output import *\nwrite_output('24 V at 焦点, 2 mm²\\n', None, choose_style(plain=True))"
    )
    ran = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        env=environment(PYTHONIOENCODING="latin-1"),
        cwd=ROOT,
        check=True,
    )

    assert ran.stdout.decode("latin-1") == "24 V at \\u7126\\u70b9, 2 mm²\n"
