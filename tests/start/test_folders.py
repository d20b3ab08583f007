"""`start library` and `start pack`, as those who begin with them go on: check, commit, install, run."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest
from click.testing import CliRunner

from rigmint.commands import main

ROOT = Path(__file__).parents[2]
CODE = "kestrel-house:no-asset"


def run(*words: str | Path, cwd: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    """A command that has to succeed."""
    done = subprocess.run(
        [str(word) for word in words],
        cwd=cwd,
        env={**os.environ, **environment},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done


def start(folder: Path, *words: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(folder)
    result = CliRunner().invoke(main, ["start", *words, "--plain"])
    assert result.exit_code == 0, result.output


def test_a_started_library_is_checked_on_each_commit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    start(tmp_path, "library", "kestrel", monkeypatch=monkeypatch)
    house = tmp_path / "kestrel"
    run("git", "init", "-q", cwd=house)
    run("git", "add", "-A", cwd=house)
    tools = {"PATH": f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"}
    hook = (sys.executable, "-m", "pre_commit", "run", "--all-files", "--verbose")
    clean = run(*hook, cwd=house, **tools, PRE_COMMIT_HOME=str(tmp_path / "hooks"))
    rig = house / "rigs" / "first.rig.yaml"
    rig.write_text(rig.read_text(encoding="utf-8").replace("plate.tap_1", "plate.tap_9", 1), encoding="utf-8")
    broken = subprocess.run(hook, cwd=house, env={**os.environ, **tools, "PRE_COMMIT_HOME": str(tmp_path / "hooks")}, capture_output=True, text=True, check=False)  # fmt: skip

    assert "1 setup   nothing found" in clean.stdout
    assert broken.returncode == 1
    assert "tap_9" in broken.stdout
    assert "kestrel/lead-tap-to-2pin-red" in run(*tools_of("parts", "red", "--plain"), cwd=house).stdout


def tools_of(*words: str) -> tuple[str, ...]:
    """rigmint as it is installed here."""
    return (sys.executable, "-c", "import sys; from rigmint.commands import main; main()", *words)


@dataclass(frozen=True, slots=True)
class Clean:
    """A clean environment that holds rigmint's wheel and that of a started pack."""

    folder: Path
    bin: Path

    def rigmint(self, *words: str) -> str:
        """What a command prints."""
        return run(self.bin / "rigmint", *words, cwd=self.folder, RIGMINT_CACHE="").stdout


@pytest.fixture(scope="module")
def clean(tmp_path_factory: pytest.TempPathFactory) -> Clean:
    """Built and installed as anybody would: with uv where it is at hand, else with pip."""
    folder = tmp_path_factory.mktemp("clean")
    pack = folder / "kestrel-house"
    with pytest.MonkeyPatch.context() as patch:
        start(folder, "pack", "kestrel-house", monkeypatch=patch)
        start(folder, "rig", "--yes", "first", monkeypatch=patch)
    wheels, target = folder / "wheels", folder / "venv"
    uv = os.environ.get("UV") or shutil.which("uv")  # `uv run` names itself
    if uv is not None:
        for project in (ROOT, pack):
            run(uv, "build", "--quiet", "--wheel", "--out-dir", wheels, project, cwd=folder)
        run(uv, "venv", "--quiet", "--python", sys.executable, target, cwd=folder)
        install = (uv, "pip", "install", "--quiet", "--python", target / "bin" / "python")
    else:
        run(sys.executable, "-m", "venv", target, cwd=folder)
        pip = (target / "bin" / "python", "-m", "pip", "--quiet", "--disable-pip-version-check")
        run(*pip, "wheel", "--no-deps", "--wheel-dir", wheels, ROOT, pack, cwd=folder)
        install = (*pip, "install")
    run(*install, *sorted(wheels.glob("*.whl")), "pytest", cwd=folder)
    return Clean(folder, target / "bin")


def test_a_started_pack_passes_its_own_tests_at_once(clean: Clean) -> None:
    done = run(clean.bin / "python", "-m", "pytest", "-q", cwd=clean.folder / "kestrel-house")

    assert "15 passed" in done.stdout


def test_a_started_pack_is_listed_and_explained(clean: Clean) -> None:
    listed, explained = clean.rigmint("packs", "--plain"), clean.rigmint("explain", CODE, "--plain")

    assert "kestrel-house 0.1.0, brought by kestrel-house" in listed
    assert CODE in listed
    assert "Two rigs are promised one camera" in explained


def test_a_started_pack_runs_in_check_and_stands_in_sarif(clean: Clean) -> None:
    text = clean.rigmint("check", "first.rig.yaml", "--plain")
    run_of_it = json.loads(clean.rigmint("check", "first.rig.yaml", "--as", "sarif"))["runs"][0]
    tool = run_of_it["tool"]
    rules = [rule["id"] for part in (tool["driver"], *tool.get("extensions", [])) for rule in part.get("rules", [])]

    assert f"tidy   {CODE}" in text
    assert "camera and head have no asset numbers." in text
    assert [result["ruleId"] for result in run_of_it["results"]] == [CODE]
    assert CODE in rules


def test_the_installed_wheel_lays_down_all_four(clean: Clean) -> None:
    for what in (("rig", "--yes"), ("part", "--yes"), ("library",), ("pack",)):
        assert "Laid down second" in clean.rigmint("start", *what, "second" + what[0])
