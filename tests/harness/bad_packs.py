"""A pack as installed, good but for one thing: its module, its folder and its rigs, each of which a test may change."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from rigmint.testing import PackUnderTest, Runs, Shelf, edit_text, find_corpus, open_pack_folder

MODULE = """\
from rigmint import Finding, Fix, Grade, Parameter, Rule, hookimpl

PACK_API = 1


def check(case):
    names = [item.name for item in case.items if item.part.kind == "plate"]
    for name in names:
        yield Finding("NAME:plate", Grade.TIDY, "There is a plate.", name, name, fixes=(Fix("Take it out."),))


RULE = Rule(
    code="NAME:plate",
    grades=(Grade.FIGHT, Grade.TIDY),
    title="A plate",
    looks_for="Plates.",
    why="They are heavy.",
    put_right="Leave it in the case.",
    source="house rule",
    check=check,
    parameters={"most": Parameter(1, None, "plates that are borne")},
)


@hookimpl
def rigmint_rules():
    return [RULE]
"""
README = "| code | grade, worst first | finding |\n| --- | --- | --- |\n| `NAME:plate` | fight, tidy | A plate |\n"
SHOWS = "rigmint: 1\nrig: Tern Point\nkit:\n  plate: generic/plate-wedge-two-tap  # fault: NAME:plate\n"
RIGHT = "rigmint: 1\nrig: Tern Point\nkit:\n  lens: generic/lens-prime-compact\n"
RIGS = {
    "rigmint.yaml": "rigmint_library: 1\n",
    "plate.shows.rig.yaml": SHOWS,
    "plate.right.rig.yaml": RIGHT,
}
Changes = tuple[tuple[str, str], ...]


def name_pack(stem: str, number: int) -> str:
    """A name of its own for each of many packs: codes are plain words, without numbers."""
    return f"{stem}{chr(ord('a') + number // 26)}{chr(ord('a') + number % 26)}"


def make_pack(
    root: Path,
    name: str,
    module: Changes = (),
    *,
    readme: Changes = (),
    rigs: Mapping[str, str | None] | None = None,
) -> Path:
    """The folder of a pack that is installed once `root` is on the module search path. `module`, `readme`: what is
    changed in their texts; `rigs`: files of tests/rigs that are other, or with None not there. Its module and the
    family of its code bear its name."""
    folder = root / f"folder-{name}"
    (folder / "tests" / "rigs").mkdir(parents=True)
    info = root / f"{name}-1.0.dist-info"
    info.mkdir()
    points = f'[project.entry-points."rigmint.packs"]\n{name} = "pack_{name}"\n'
    texts = {
        root / f"pack_{name}.py": edit_text(MODULE, *module),
        info / "METADATA": f"Metadata-Version: 2.1\nName: {name}\nVersion: 1.0\n",
        info / "entry_points.txt": f"[rigmint.packs]\n{name} = pack_{name}\n",
        folder / "pyproject.toml": f'[project]\nname = "{name}"\nversion = "1.0"\n{points}',
        folder / "README.md": edit_text(README, *readme),
    }
    for file, text in {**RIGS, **(rigs or {})}.items():
        if text is not None:
            texts[folder / "tests" / "rigs" / file] = text
    for path, text in texts.items():
        path.write_text(text.replace("NAME", name), encoding="utf-8")
    return folder


def make_small_corpus() -> Shelf:
    """Two sound rigs of those that come with rigmint, and one with a fault."""
    root = find_corpus().root
    names = ("rigs/kettle-lane-follow-mode", "rigs/pale-harbour-desk", "faults/polarity-reversed-lamp")
    return Shelf(root, tuple(root / f"{name}.rig.yaml" for name in names))


def open_pack(folder: Path) -> tuple[PackUnderTest, Runs]:
    """The pack of a folder, and its runs on the small corpus."""
    packs = open_pack_folder(folder)
    return packs[0], Runs(packs, make_small_corpus())
