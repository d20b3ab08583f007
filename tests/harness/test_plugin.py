"""The pytest plugin: nobody's tests but a pack's own are touched by it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.harness.bad_packs import RIGHT, make_pack

QUIET = """\
import sys

def test_nothing_of_rigmint_but_the_plugin_is_imported():
    ours = {name for name in sys.modules if name.partition(".")[0].startswith("rigmint")}
    assert ours == {"rigmint", "rigmint.testing", "rigmint.testing.plugin"}
"""


def run_pytest(site: Path, *arguments: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    """pytest in a process of its own, with the packs in `site` installed."""
    return subprocess.run(
        [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", "-W", "error", *arguments],
        cwd=cwd,
        env={**os.environ, "PYTHONPATH": str(site), "PYTHONDONTWRITEBYTECODE": "1"},
        capture_output=True,
        text=True,
        check=False,
    )


def test_takes_no_part_in_the_tests_of_others(tmp_path: Path) -> None:
    (tmp_path / "test_quiet.py").write_text(QUIET, encoding="utf-8")
    (tmp_path / "pyproject.toml").write_text('[project.entry-points."rigmint.packs"]\na = "b"\n', encoding="utf-8")
    done = run_pytest(tmp_path, cwd=tmp_path)

    assert (done.returncode, "1 passed" in done.stdout) == (0, True), done.stdout


def test_a_pack_is_collected_wherever_it_is_named(tmp_path: Path) -> None:
    folder = make_pack(tmp_path, "named", rigs={"plate.alike.rig.yaml": RIGHT})
    (folder / "tests" / "test_own.py").write_text("def test_own(): pass\n", encoding="utf-8")
    with (folder / "pyproject.toml").open("a", encoding="utf-8") as file:
        file.write('[tool.pytest.ini_options]\nrigmint_packs = ["."]\ntestpaths = ["tests"]\n')
    by_setting = run_pytest(tmp_path, "--collect-only", "-q", cwd=folder)
    by_option = run_pytest(tmp_path, "--collect-only", "-q", "--rigmint-pack", folder.name, folder.name, cwd=tmp_path)
    elsewhere = run_pytest(tmp_path, "--collect-only", "-q", "tests", cwd=folder)
    alone = run_pytest(tmp_path, "-v", "pyproject.toml::named/rigs/plate[alike]", cwd=folder)

    assert "16 tests collected" in by_setting.stdout, by_setting.stdout
    assert "16 tests collected" in by_option.stdout, by_option.stdout
    assert "1 test collected" in elsewhere.stdout, elsewhere.stdout
    assert (alone.returncode, "1 passed" in alone.stdout) == (0, True), alone.stdout


def test_faults_are_told_without_a_traceback(tmp_path: Path) -> None:
    folder = make_pack(tmp_path, "faulty", [('"They are heavy."', '"TODO"')])
    done = run_pytest(tmp_path, "--rigmint-pack", str(folder), "-k", "texts or sources", str(folder), cwd=tmp_path)

    assert (done.returncode, "1 failed, 1 passed" in done.stdout) == (1, True), done.stdout
    assert "faulty:plate: `why` is still a placeholder: 'TODO'" in done.stdout
    assert "conformance.py" not in done.stdout


@pytest.mark.parametrize(
    ("manifest", "status", "says"),
    [
        (None, 4, "is no folder of a pack: it holds no pyproject.toml"),
        ('[project.entry-points."rigmint.packs"]\nnone-such = "a"\n', 2, "no pack `none-such` is installed"),
    ],
)
def test_a_folder_that_is_no_installed_pack_is_refused(
    tmp_path: Path, manifest: str | None, status: int, says: str
) -> None:
    if manifest is not None:
        (tmp_path / "pyproject.toml").write_text(manifest, encoding="utf-8")
    done = run_pytest(tmp_path, "--rigmint-pack", ".", cwd=tmp_path)

    assert (done.returncode, says in done.stdout + done.stderr) == (status, True), done.stdout + done.stderr
