"""`rigmint start`: lay down skeletons that check clean."""

from __future__ import annotations

import click

from rigmint.commands.start_folder import library, pack
from rigmint.commands.start_part import part
from rigmint.commands.start_rig import rig


@click.group("start", short_help="Lay down a commented skeleton that checks clean: rig, part, library, pack.")
def command() -> None:
    """Lay down a commented skeleton that checks clean: a rig, a part, a library or a pack. Nothing is written over."""


for one in (rig, part, library, pack):
    command.add_command(one)
