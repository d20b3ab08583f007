"""The group of commands, and what every command does when it fails."""

from __future__ import annotations

import errno
import os
import sys
import traceback
from collections.abc import Callable
from importlib import import_module
from pathlib import Path
from typing import Any

import click

COMMANDS = {
    "check": "Report findings in rig files.",
    "explain": "What a rule looks for, why, how to put it right, from where it is known.",
    "mend": "Apply proved fixes to a rig file, or sign for a finding.",
    "reference": "The whole reference: codes, file keys, pack contract.",
    "packs": "The installed packs and their rules.",
    "parts": "Search the catalogue, or check part files.",
    "power": "Voltage, current, drop, load and runtime, port by port and lead by lead.",
    "compare": "What a change does: findings gained and lost, voltages, owners, reach, runtime.",
    "start": "Lay down a commented skeleton that checks clean: rig, part, library, pack.",
    "owners": "Who can move each axis in each setup, by which path, how far.",
    "misplug": "Every plug that fits a wrong socket, and what it would do.",
    "sheet": "The prep sheet as one self-contained page.",
    "draw": "The wiring drawing as SVG, one layer or all.",
    "labels": "Lead labels as CSV for a label printer.",
    "editor": "A language server, for an editor.",
}
"""Name to the line in `--help`; each stands in the module of its name, as `command`."""

COULD_NOT = 2
_OF_OUTPUT = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO, errno.EPIPE})
"""Of all that a command writes by itself only standard output can meet these; files say it in words of their own."""
TRACE = "RIGMINT_TRACE"
"""Set in the environment, it shows the traceback of an error inside rigmint."""


class CouldNot(click.ClickException):
    """What a command could not do, in words."""

    exit_code = COULD_NOT


class LazyGroup(click.Group):
    """A group that knows its commands by name and imports one when it is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's signature
        """The names, in the order of the table."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """The command, imported now."""
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = import_module(f"rigmint.commands.{cmd_name}").command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """The list in `--help`, from the table alone."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; whatever goes wrong ends in status 2, since 1 means findings."""
        return _run(lambda: super(LazyGroup, self).invoke(ctx), ctx)


def _run(action: Callable[[], Any], ctx: click.Context) -> Any:
    try:
        return action()
    except (click.exceptions.Exit, click.Abort, click.UsageError):
        raise
    except click.ClickException as error:
        raise CouldNot(error.format_message()) from error
    except KeyboardInterrupt:
        click.echo("Stopped: nothing was judged.", err=True)
        ctx.exit(COULD_NOT)
    except OSError as error:
        if error.errno not in _OF_OUTPUT:
            _say_breakdown(error)
            ctx.exit(COULD_NOT)
        from rigmint.commands.surroundings import drop_output, say_unwritten

        drop_output()
        if isinstance(error, BrokenPipeError):  # whoever read it has read enough
            ctx.exit(0)
        click.echo(say_unwritten(error), err=True)
        ctx.exit(COULD_NOT)
    except Exception as error:
        _say_breakdown(error)
        ctx.exit(COULD_NOT)


def _say_breakdown(error: Exception) -> None:
    if os.environ.get(TRACE):
        traceback.print_exc(file=sys.stderr)
    click.echo(_describe_breakdown(error), err=True)


def _describe_breakdown(error: Exception) -> str:
    frames = traceback.extract_tb(error.__traceback__)
    where = f"{Path(frames[-1].filename).name}, line {frames[-1].lineno}" if frames else "an unknown place"
    what = ascii(f"{type(error).__name__}: {error}")[1:-1]
    return f"rigmint itself broke off in {where}: {what}. Nothing was judged. {TRACE}=1 shows more."


def _print_version(ctx: click.Context, _option: click.Parameter, is_asked: bool) -> None:
    if not is_asked or ctx.resilient_parsing:
        return
    from rigmint.commands.version import find_version

    click.echo(f"rigmint {find_version()}")
    ctx.exit()


@click.group(cls=LazyGroup, context_settings={"max_content_width": 100})
@click.option(
    "--version",
    is_flag=True,
    expose_value=False,
    is_eager=True,
    callback=_print_version,
    help="Show the version.",
)
def main() -> None:
    """Check camera rigs before anything is plugged in: power, control, picture and mechanics.

    A check finds known faults in what was written down. It never calls a rig safe.
    """
