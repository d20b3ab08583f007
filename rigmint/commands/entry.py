"""Where the program begins: an unchanged run is answered from the cache, before click or anything else is imported."""

from __future__ import annotations

import os
import sys

TYPE_CHECKING = False
if TYPE_CHECKING:
    from rigmint.commands.request import Request

_THREADS = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")
"""Of numpy's linear algebra: on circuits of a rig's size more than one only stand in each other's way."""
_COULD_NOT = 2


def main() -> None:
    """The program. Where it is stopped, or its output cannot be written, it says so and ends with status 2."""
    for name in _THREADS:
        os.environ.setdefault(name, "1")
    try:
        status = _run()
    except KeyboardInterrupt:
        sys.stderr.write("Stopped: nothing was judged.\n")
        status = _COULD_NOT
    except OSError as error:
        from rigmint.commands.surroundings import drop_output, say_unwritten

        sys.stderr.write(say_unwritten(error) + "\n")
        drop_output()
        status = _COULD_NOT
    sys.exit(status)


def _run() -> int:
    """Its status. What is imported is imported here, where being stopped is no traceback."""
    from rigmint.commands.request import read_request
    from rigmint.commands.surroundings import open_missing_streams

    open_missing_streams()
    request = read_request(sys.argv[1:])
    status = _answer(request) if request is not None else None
    return status if status is not None else _run_command(request)


def _answer(request: Request) -> int | None:
    """Print what an unchanged run printed; its status, or None where it has to be run."""
    from rigmint.commands.surroundings import drop_output, encode_for_output
    from rigmint.lint.cache_store import open_store
    from rigmint.lint.kept_run import find_run

    try:
        kept = find_run(open_store(), request.make_key(), request.today)
    except OSError:  # such as a working folder that is gone: the run itself will say it
        return None
    if kept is None:
        return None
    text, status = kept
    try:
        sys.stdout.write(encode_for_output(text))
        sys.stdout.flush()
    except BrokenPipeError:
        drop_output()
    return status


def _run_command(request: Request | None) -> int:
    import signal

    import click

    from rigmint.commands.group import main as run_command

    try:
        status = int(run_command.main(obj=request, standalone_mode=False) or 0)
        sys.stdout.flush()
    except click.ClickException as error:
        error.show()
        status = error.exit_code
    except click.Abort as error:  # by which click says that it was stopped outside of a command
        raise KeyboardInterrupt from error
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # all is done: what Python still tidies up is not worth a traceback
    return status
