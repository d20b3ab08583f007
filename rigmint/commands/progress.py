"""How far a run is: a bar on standard error, where that is a terminal."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from click._termui_impl import ProgressBar

_PATIENCE = 1.0
"""s for which nothing is shown: most runs are over by then."""


@contextmanager
def show_progress(*, plain: bool) -> Iterator[Callable[[int, int], None] | None]:
    """What to tell how many of how many files are done; None where nobody would see it."""
    if plain or not sys.stderr.isatty():
        yield None
        return
    begun = time.monotonic()
    with ExitStack() as stack:
        bars: list[ProgressBar[int]] = []

        def tell(done: int, total: int) -> None:
            if not bars:
                if time.monotonic() - begun < _PATIENCE:
                    return
                bar = click.progressbar(length=total, label="Checking", show_pos=True, file=sys.stderr)
                bars.append(stack.enter_context(bar))
            bars[0].update(done - bars[0].pos)

        yield tell
