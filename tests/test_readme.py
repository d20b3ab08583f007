"""The README is true: its files are read by the schemas, its commands print what it shows.

`RIGMINT_WRITE_README=1 pytest tests/test_readme.py` writes what the commands print into it.
"""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from rigmint.commands import main
from rigmint.library.document import Document
from rigmint.library.faults import FaultList
from rigmint.library.schemas import decode_document
from rigmint.library.yaml import parse_yaml

README = Path(__file__).parent.parent / "README.md"
_CONSOLE = re.compile(r"```console\n\$ (rigmint [^\n]+)\n(.*?)```", re.DOTALL)
_YAML = re.compile(r"`([^`\n]+\.yaml)`:\n\n```yaml\n(.*?)```", re.DOTALL)
_KINDS = {".rig.yaml": "rig", ".part.yaml": "part", "rigmint.yaml": "library"}


def _list_files() -> dict[str, str]:
    return dict(_YAML.findall(README.read_text(encoding="utf-8")))


def _run(command: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    for name, text in _list_files().items():
        if name.endswith(".rig.yaml"):
            (folder / name).write_text(text, encoding="utf-8")
    monkeypatch.chdir(folder)
    return CliRunner().invoke(main, command.split()[1:]).stdout


@pytest.mark.parametrize("command", [command for command, _ in _CONSOLE.findall(README.read_text(encoding="utf-8"))])
def test_commands_print_what_is_shown(command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    printed = _run(command, tmp_path, monkeypatch)
    text = README.read_text(encoding="utf-8")
    if os.environ.get("RIGMINT_WRITE_README"):
        block = f"```console\n$ {command}\n"
        start = text.index(block) + len(block)
        text = text[:start] + printed + text[text.index("```", start) :]
        README.write_text(text, encoding="utf-8")
    shown = dict(_CONSOLE.findall(text))[command]

    assert shown == printed


@pytest.mark.parametrize(("name", "text"), list(_list_files().items()))
def test_files_are_read_by_the_schemas(name: str, text: str) -> None:
    kind = next((kind for suffix, kind in _KINDS.items() if name.endswith(suffix)), None)
    if kind is None:
        pytest.skip(f"{name} is no file of ours")
    faults = FaultList()
    document = parse_yaml(text, name, faults)
    assert isinstance(document, Document)
    decode_document(document, kind, faults)

    assert faults.found == []


def test_first_command_is_the_one_that_ci_runs() -> None:
    ci = (README.parent / ".ci" / "run").read_text(encoding="utf-8")
    commands = re.findall(r"uv run ([^\n`]+)", README.read_text(encoding="utf-8"))

    assert commands[:2] == ["rigmint check examples/rigs/saltmarsh-two-up.rig.yaml", "pytest"]
    assert all(f"uv run --locked {command}" in ci for command in commands[:2])
