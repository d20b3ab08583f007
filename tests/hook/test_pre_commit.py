"""The hook as a consumer has it: a repository of rigs, the real pre-commit, this repository as the hook's."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).parent.parent.parent

LIBRARY = """\
rigmint_library: 1
title: Kestrel Hire
parts: [parts]
"""

PARTS = """\
rigmint_part: 1
id: house/lead-for-the-camera
kind: lead
figures: common practice
ends: {a: {connector: d-tap, sex: plug}, b: {connector: 0b-2, sex: plug}}
conductors: [{from: a.1, to: b.PLUS, gauge: 20 AWG}, {from: a.2, to: b.MINUS, gauge: 20 AWG}]
length: 40 cm
"""
RIGHT_PARTS = PARTS.replace("PLUS", "2").replace("MINUS", "1")
CROSSED_PARTS = PARTS.replace("PLUS", "1").replace("MINUS", "2")

RIG = """\
rigmint: 1
rig: Saltmarsh, bare
kit: {battery: generic/battery-98wh-wedge, plate: generic/plate-wedge-two-tap, camera: generic/camera-compact}
docks: [battery.mount > plate.battery]
leads:
  P1: {part: LEAD, from: plate.tap_1, to: camera.dc_in}
"""
SOUND_RIG = RIG.replace("LEAD", "house/lead-for-the-camera")
FAULTY_RIG = RIG.replace("LEAD", "generic/lead-tap-to-2pin-plus-first")

HOUSE_PACK = {
    "pyproject.toml": """\
[build-system]
requires = ["hatchling>=1.26"]
build-backend = "hatchling.build"

[project]
name = "kestrel-house"
version = "0.1.0"
dependencies = ["rigmint>=0.1,<1"]

[project.entry-points."rigmint.packs"]
kestrel-house = "kestrel_house"
""",
    "kestrel_house/__init__.py": '''\
"""What the house asks of every rig."""

from rigmint import Finding, Fix, Grade, Rule, hookimpl

PACK_API = 1


def check(case):
    """A camera leaves the house with an asset number."""
    for item in case.items:
        if item.part.kind == "camera" and item.asset is None:
            yield Finding(
                code="kestrel:no-asset",
                grade=Grade.FIGHT,
                says=f"{item.name} has no asset number.",
                at=item.name,
                cause=item.name,
                fixes=(Fix("Write it under `asset:`."),),
            )


@hookimpl
def rigmint_rules():
    """One rule."""
    return (
        Rule(
            code="kestrel:no-asset",
            grades=(Grade.FIGHT,),
            title="A camera without an asset number",
            looks_for="Cameras without `asset:`.",
            why="It cannot be checked in.",
            put_right="Write the number down.",
            source="house rule",
            check=check,
        ),
    )
''',
}


@dataclass(frozen=True)
class Consumer:
    """A repository of rigs with the hook installed."""

    folder: Path
    environment: dict[str, str]

    def write(self, files: dict[str, str]) -> None:
        for name, text in files.items():
            path = self.folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")

    def run(self, *command: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            command, cwd=self.folder, env=self.environment, capture_output=True, text=True, check=False
        )

    def commit(self, files: dict[str, str]) -> tuple[bool, str]:
        """Whether a commit of these files was accepted, and what was printed."""
        self.write(files)
        self.run("git", "add", "-A")
        done = self.run("git", "commit", "-q", "-m", "Change rigs")
        return done.returncode == 0, done.stdout + done.stderr


def _git(folder: Path, *arguments: str) -> str:
    done = subprocess.run(["git", *arguments], cwd=folder, capture_output=True, text=True, check=True)
    return done.stdout.strip()


def _make_repository(folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    _git(folder, "init", "-q", "-b", "main")
    _git(folder, "config", "user.name", "Prep Lead")
    _git(folder, "config", "user.email", "prep@kestrel.example")


@pytest.fixture(scope="module")
def hook_repository(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """This checkout as it stands, committed in a repository of its own, and its revision."""
    folder = tmp_path_factory.mktemp("hook")
    _make_repository(folder)
    listed = _git(CHECKOUT, "ls-files", "--cached", "--others", "--exclude-standard").splitlines()
    for name in listed:
        source = CHECKOUT / name
        if source.is_file():
            target = folder / name
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(source, target)
    _git(folder, "add", "-A")
    _git(folder, "commit", "-q", "-m", "Take the checkout")
    return folder, _git(folder, "rev-parse", "HEAD")


@pytest.fixture(scope="module")
def pre_commit_home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("pre-commit-home")


def _make_consumer(
    folder: Path, hook: tuple[Path, str], home: Path, extra: list[str], arguments: str = "[]"
) -> Consumer:
    pytest.importorskip("pre_commit", reason="pre-commit is not installed")
    _make_repository(folder)
    environment = {
        **{key: value for key, value in os.environ.items() if not key.startswith(("GIT_", "UV_", "VIRTUAL_ENV"))},
        "PRE_COMMIT_HOME": str(home),
    }
    consumer = Consumer(folder, environment)
    dependencies = f"        additional_dependencies: {extra}\n" if extra else ""
    config = f"repos:\n  - repo: {hook[0]}\n    rev: {hook[1]}\n    hooks:\n      - id: rigmint\n        args: {arguments}\n{dependencies}"
    consumer.write({".pre-commit-config.yaml": config, "rigmint.yaml": LIBRARY})
    installed = consumer.run(sys.executable, "-m", "pre_commit", "install")
    assert installed.returncode == 0, installed.stdout + installed.stderr
    return consumer


def test_hook_refuses_faulty_rigs_and_parts_that_break_untouched_rigs(
    tmp_path: Path, hook_repository: tuple[Path, str], pre_commit_home: Path
) -> None:
    consumer = _make_consumer(tmp_path / "rigs", hook_repository, pre_commit_home, [])

    faulty = consumer.commit({"parts/camera.part.yaml": RIGHT_PARTS, "bare.rig.yaml": FAULTY_RIG})
    sound = consumer.commit({"bare.rig.yaml": SOUND_RIG})
    broken_part = consumer.commit({"parts/camera.part.yaml": CROSSED_PARTS})

    assert (faulty[0], "polarity:reversed" in faulty[1]) == (False, True), faulty[1]
    assert sound[0], sound[1]
    assert (broken_part[0], "polarity:reversed" in broken_part[1]) == (False, True), broken_part[1]


def test_hook_runs_a_house_pack_beside_the_standard_ones(
    tmp_path: Path, hook_repository: tuple[Path, str], pre_commit_home: Path
) -> None:
    pack = tmp_path / "kestrel-house"
    for name, text in HOUSE_PACK.items():
        path = pack / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    consumer = _make_consumer(tmp_path / "rigs", hook_repository, pre_commit_home, [str(pack)])

    accepted, printed = consumer.commit({"parts/camera.part.yaml": RIGHT_PARTS, "bare.rig.yaml": FAULTY_RIG})

    assert not accepted
    assert [code for code in ("polarity:reversed", "kestrel:no-asset") if code not in printed] == [], printed


HOUSE_CHECKS = """\
from rigmint import Finding, Grade, Rule


def check(case):
    for item in case.items:
        if item.part.kind == "camera" and item.asset is None:
            yield Finding("kestrel:no-asset", Grade.FIGHT, f"{item.name} has no asset number.", item.name, item.name)


RULES = (Rule("kestrel:no-asset", (Grade.FIGHT,), "A", "B.", "C.", "D.", "house rule", check),)
"""


@pytest.mark.parametrize(
    ("arguments", "accepts", "printed"),
    [
        ("[]", False, "library:unsaid"),
        ("[--house-checks]", False, "kestrel:no-asset"),
        ("[--no-house-checks]", True, ""),
    ],
)
def test_hook_says_whether_house_checks_run(
    tmp_path: Path,
    hook_repository: tuple[Path, str],
    pre_commit_home: Path,
    arguments: str,
    accepts: bool,
    printed: str,
) -> None:
    consumer = _make_consumer(tmp_path / "rigs", hook_repository, pre_commit_home, [], arguments)
    library = f"{LIBRARY}house: {{checks: [house/checks.py]}}\n"
    files = {"rigmint.yaml": library, "house/checks.py": HOUSE_CHECKS, "bare.rig.yaml": SOUND_RIG}
    accepted, shown = consumer.commit({"parts/camera.part.yaml": RIGHT_PARTS, **files})

    assert (accepted, printed in shown) == (accepts, True), shown


def test_hook_runs_when_only_a_house_check_changes(
    tmp_path: Path, hook_repository: tuple[Path, str], pre_commit_home: Path
) -> None:
    consumer = _make_consumer(tmp_path / "rigs", hook_repository, pre_commit_home, [], "[--house-checks]")
    library = f"{LIBRARY}house: {{checks: [house/checks.py]}}\n"
    silent = HOUSE_CHECKS.replace("item.asset is None", "False")
    files = {"rigmint.yaml": library, "house/checks.py": silent, "bare.rig.yaml": SOUND_RIG}
    first = consumer.commit({"parts/camera.part.yaml": RIGHT_PARTS, **files})
    second = consumer.commit({"house/checks.py": HOUSE_CHECKS})

    assert first[0], first[1]
    assert (second[0], "kestrel:no-asset" in second[1]) == (False, True), second[1]
