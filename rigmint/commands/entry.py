"""Where the program begins: an unchanged run is answered from the cache, before click or anything else is imported."""

from __future__ import annotations

import os
import sys

from rigmint.commands.request import Request, read_request
from rigmint.commands.surroundings import drop_output, encode_for_output
from rigmint.lint.cache_store import open_store
from rigmint.lint.kept_run import find_run

_THREADS = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")
"""Of numpy's linear algebra: on circuits of a rig's size more than one only stand in each other's way."""


def main() -> None:
    """The program."""
    for name in _THREADS:
        os.environ.setdefault(name, "1")
    request = read_request(sys.argv[1:])
    status = _answer(request) if request is not None else None
    if status is not None:
        sys.exit(status)
    from rigmint.commands.group import main as run_command

    run_command(obj=request)


def _answer(request: Request) -> int | None:
    """Print what an unchanged run printed; its status, or None where it has to be run."""
    try:
        kept = find_run(open_store(), request.make_key(), request.today)
    except OSError:  # such as a working folder that is gone: the run itself will say it
        return None
    except KeyboardInterrupt:
        sys.stderr.write("Stopped: nothing was judged.\n")
        return 2
    if kept is None:
        return None
    text, status = kept
    try:
        sys.stdout.write(encode_for_output(text))
        sys.stdout.flush()
    except BrokenPipeError:
        drop_output()
    return status
