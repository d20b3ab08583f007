"""`rigmint start`: lay down skeletons that check clean."""

from __future__ import annotations

import click

from rigmint.commands.start_rig import rig


@click.group("start", short_help="Lay down a commented skeleton that checks clean.")
def command() -> None:
    """Lay down a commented skeleton that checks clean: a rig, a part, a library or a pack. Nothing is written over."""


command.add_command(rig)
