"""The example house pack: found as a pack once it is installed, and its own tests pass there."""

from __future__ import annotations

import os
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

PACK = Path(__file__).parents[2] / "examples" / "house-pack"
MAIN = "import sys; from rigmint.commands import main; main()"


@pytest.fixture
def installed(tmp_path: Path) -> dict[str, str]:
    """The environment of a process in which the pack is installed from its folder, as an editable install leaves it."""
    project = tomllib.loads((PACK / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    site = tmp_path / "site"
    info = site / f"kestrel_house-{project['version']}.dist-info"
    info.mkdir(parents=True)
    metadata = f"Metadata-Version: 2.1\nName: {project['name']}\nVersion: {project['version']}\n"
    (info / "METADATA").write_text(metadata, encoding="utf-8")
    points = [f"{name} = {value}" for name, value in project["entry-points"]["rigmint.packs"].items()]
    (info / "entry_points.txt").write_text("[rigmint.packs]\n" + "\n".join(points) + "\n", encoding="utf-8")
    return {**os.environ, "PYTHONPATH": f"{site}{os.pathsep}{PACK}", "PYTHONDONTWRITEBYTECODE": "1"}


def run(environment: dict[str, str], *command: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, *command], cwd=cwd, env=environment, capture_output=True, text=True, check=False
    )


def test_its_own_tests_pass(installed: dict[str, str]) -> None:
    done = run(installed, "-m", "pytest", "-v", "-p", "no:cacheprovider", "-W", "error", cwd=PACK)

    assert done.returncode == 0, done.stdout + done.stderr
    for name in ("kestrel-house/units PASSED", "rigs/no-asset[shows] PASSED", "test_no_asset.py::test_lists"):
        assert name in done.stdout


def test_it_is_listed_with_three_rules(installed: dict[str, str], tmp_path: Path) -> None:
    done = run(installed, "-c", MAIN, "packs", "--plain", cwd=tmp_path)

    assert done.returncode == 0
    assert [line.split()[1] for line in done.stdout.splitlines() if "kestrel:" in line] == [
        "kestrel:few-batteries", "kestrel:no-asset", "kestrel:unmarked-feed",
    ]  # fmt: skip


def test_a_library_that_needs_it_is_satisfied(installed: dict[str, str], tmp_path: Path) -> None:
    (tmp_path / "rigmint.yaml").write_text("rigmint_library: 1\npacks: {need: [kestrel-house]}\n", encoding="utf-8")
    rig = "rigmint: 1\nrig: Saltmarsh\nkit: {lens: generic/lens-prime-compact}\n"
    (tmp_path / "a.rig.yaml").write_text(rig, encoding="utf-8")
    without = {key: value for key, value in installed.items() if key != "PYTHONPATH"}
    there, missing = (run(one, "-c", MAIN, "check", "--as", "json", cwd=tmp_path) for one in (installed, without))

    assert (there.returncode, "kestrel:no-asset" in there.stdout) == (0, True)
    assert (missing.returncode, "the library needs the pack `kestrel-house`" in missing.stdout) == (2, True)
