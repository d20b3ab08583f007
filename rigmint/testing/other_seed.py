"""The same judgements in a process with another seed of hashes, by which sets come in another order.

This module is that process, too: it takes what to judge as JSON and prints what was found as JSON.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

from rigmint.testing.cases import BadCase
from rigmint.testing.judging import find_own_shelves, judge_shelves
from rigmint.testing.pack_folder import PackUnderTest, open_pack_folder
from rigmint.testing.shelves import Shelf, read_shelf

_SEEDS = ("1", "2")


def judge_with_other_seed(packs: Sequence[PackUnderTest], corpus: Shelf) -> Mapping[str, Mapping[str, str]]:
    """Pack and rig to all that is found, as text. Raises BadCase where the other process fails."""
    seed = next(one for one in _SEEDS if one != os.environ.get("PYTHONHASHSEED"))
    asked = {
        "packs": sorted({str(one.folder) for one in packs}),
        "corpus": [str(path) for path in (corpus.root, *corpus.folders)],
    }
    search = os.pathsep.join(os.path.abspath(entry) for entry in sys.path)
    done = subprocess.run(
        [sys.executable, "-P", "-m", "rigmint.testing.other_seed", json.dumps(asked)],
        env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": search},
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode:
        msg = f"the packs could not be judged with another seed of hashes:\n{done.stderr}"
        raise BadCase(msg)
    found: Mapping[str, Mapping[str, str]] = json.loads(done.stdout)
    return found


def main() -> None:
    """Judge what the first argument names, and print what is found."""
    asked = json.loads(sys.argv[1])
    packs = [one for folder in asked["packs"] for one in open_pack_folder(Path(folder))]
    root, *folders = (Path(path) for path in asked["corpus"])
    own = {name: read_shelf(shelf) for name, shelf in find_own_shelves(packs).items()}
    found = judge_shelves(packs, read_shelf(Shelf(root, tuple(folders))), own)
    texts = {pack: {rig: repr(one.run) for rig, one in rigs.items()} for pack, rigs in found.items()}
    print(json.dumps(texts))


if __name__ == "__main__":
    main()
