"""All mistakes of a seed, by hand: `python -m tests.seeding [--seed N] [--each N] [--rigs N]`."""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from pathlib import Path

from tests.seeding.base import make_stock
from tests.seeding.kinds.every import draw_mutants
from tests.seeding.run import Runner
from tests.seeding.table import count, write_tally, write_wrong


def main() -> int:
    """Print the counts; 1 where anything is missed, falsely told or noisy without a reason listed."""
    parser = argparse.ArgumentParser(prog="python -m tests.seeding", description=__doc__)
    parser.add_argument("--seed", type=int, default=1, help="of the draw, and of the generated rigs")
    parser.add_argument("--each", type=int, default=2, help="mistakes of each kind in each rig")
    parser.add_argument("--rigs", type=int, default=4, help="generated rigs besides the examples")
    asked = parser.parse_args()
    begun = time.monotonic()
    with tempfile.TemporaryDirectory() as name:
        stock = make_stock(Path(name) / "library", asked.rigs, asked.seed)
        runner = Runner(stock)
        tally = count(runner.try_all(draw_mutants(stock.bases, asked.seed, asked.each)))
    title = f"Fault seeding, seed {asked.seed}, {len(stock.bases)} sound rigs"
    print("\n".join([*write_tally(tally, title), "", *write_wrong(tally, most=1000)]))
    print(f"{runner.judge.simulated} circuits by ngspice; {time.monotonic() - begun:.0f} s.")
    return 1 if tally.wrong else 0


if __name__ == "__main__":
    sys.exit(main())
