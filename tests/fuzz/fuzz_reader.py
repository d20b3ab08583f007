"""Coverage-guided fuzzing of the reader: whatever bytes a file holds, it is read or its faults are named.

    python tests/fuzz/fuzz_reader.py [-runs=N] [-max_total_time=S] [-seed=N]

Needs atheris, which instruments Python for libFuzzer; the options are libFuzzer's. It starts from the examples and their
parts. A traceback, more than 5 s for one file or more than 500 MB end it with a status, and leave the file that did it.
"""

from __future__ import annotations

import sys
from pathlib import Path
from tempfile import TemporaryDirectory

import atheris

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

with atheris.instrument_imports(include=["rigmint.library", "rigmint.rig"]):
    from rigmint.library.build_rig import assemble_rig
    from rigmint.library.faults import FaultList
    from rigmint.library.library_file import load_library
    from rigmint.library.schemas import decode_document
    from rigmint.library.yaml import parse_yaml

KINDS = ("rig", "part", "library", "connectors", "protocols")
LIBRARY = load_library(None)
COUNTS = dict.fromkeys(("no YAML", "with faults", "whole"), 0)
REPORT_EACH = 2000


def read(data: bytes) -> None:
    """Read one file as each kind that it may be: the first byte chooses. Raises AssertionError for a fault that lies
    outside of the file."""
    kind = KINDS[data[0] % len(KINDS)] if data else "rig"
    text = data[1:].decode("utf-8", "replace")
    faults = FaultList()
    document = parse_yaml(text, "a.yaml", faults)
    if document is not None and kind == "rig":
        faults.found += assemble_rig(document, LIBRARY, FaultList()).faults
    elif document is not None:
        decode_document(document, kind, faults)
    last = len(text.splitlines()) + 1
    for fault in faults.found:
        assert fault.says, fault
        assert 1 <= fault.line <= last, fault
        assert fault.column >= 1, fault
    assert document is not None or faults.found
    COUNTS["no YAML" if document is None else "with faults" if faults.found else "whole"] += 1
    if sum(COUNTS.values()) % REPORT_EACH == 0:
        print("tried:", COUNTS, flush=True)


def write_corpus(folder: Path) -> None:
    """The examples and the catalogue, each behind the byte of its kind."""
    sources = {"*.rig.yaml": 0, "*.part.yaml": 1, "rigmint.yaml": 2, "*.connectors.yaml": 3, "*.protocols.yaml": 4}
    for pattern, kind in sources.items():
        for number, path in enumerate(
            sorted([*(ROOT / "examples").rglob(pattern), *(ROOT / "rigmint").rglob(pattern)])
        ):
            (folder / f"{kind}-{number}").write_bytes(bytes([kind]) + path.read_bytes()[:8000])


def main() -> None:
    """Fuzz until libFuzzer's options say stop."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        write_corpus(folder)
        limits = [
            "-timeout=5",
            "-rss_limit_mb=500",
            "-max_len=8192",
            "-print_final_stats=1",
            f"-artifact_prefix={folder}/",
        ]
        atheris.Setup([sys.argv[0], *limits, *sys.argv[1:], name], read)
        atheris.Fuzz()


if __name__ == "__main__":
    main()
