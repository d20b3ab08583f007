"""The house: files stay small, and the ground floor is free of files, commands and graph libraries."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
MOST_LINES = 400
SOURCES = sorted(path for folder in ("rigmint", "rules") for path in (ROOT / folder).rglob("*.py"))
GROUND_FLOOR = [
    path for path in SOURCES if path.parts[len(ROOT.parts) :][:2] in (("rigmint", "physics"), ("rigmint", "rig"))
]
FOREIGN = {"ruamel", "_ruamel_yaml", "yaml", "click", "networkx", "jsonschema", "pluggy"}


def list_imports(path: Path) -> Iterator[str]:
    """The top-level name of every module that a file imports, wherever in it."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (name.name.partition(".")[0] for name in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module is not None and node.level == 0:
            yield node.module.partition(".")[0]


def test_no_file_is_too_long() -> None:
    lines = {path: len(path.read_text(encoding="utf-8").splitlines()) for path in SOURCES}
    too_long = {path.relative_to(ROOT).as_posix(): count for path, count in lines.items() if count > MOST_LINES}

    assert len(lines) > 100
    assert too_long == {}


def test_rigs_and_physics_know_nothing_of_files_commands_and_graphs() -> None:
    found = {(path.relative_to(ROOT).as_posix(), name) for path in GROUND_FLOOR for name in list_imports(path)}

    assert {path.partition("/")[2].partition("/")[0] for path, _ in found} == {"physics", "rig"}
    assert {(path, name) for path, name in found if name in FOREIGN} == set()


def test_the_package_is_not_silenced() -> None:
    # Strict types hold for all of it: no line is taken out of the check.
    marker = "type: " + "ignore"
    silenced = [path.relative_to(ROOT).as_posix() for path in SOURCES if marker in path.read_text(encoding="utf-8")]

    assert silenced == []


@pytest.mark.parametrize(
    "text", ["import networkx.algorithms", "from click import echo", "def f():\n    import ruamel.yaml"]
)
def test_imports_are_found_wherever_they_stand(tmp_path: Path, text: str) -> None:
    path = tmp_path / "module.py"
    path.write_text(text, encoding="utf-8")

    assert set(list_imports(path)) & FOREIGN != set()
