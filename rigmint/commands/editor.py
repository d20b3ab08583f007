"""`rigmint editor`: the language server."""

from __future__ import annotations

import os
import sys

import click

from rigmint.commands.group import CouldNot
from rigmint.library.foreign import keep_off_output


@click.command("editor", short_help="A language server, for an editor.")
def command() -> None:
    """A language server over standard input and output, for any editor that speaks the protocol.

    Findings while typing, fixes that are proved before they are offered, completion, the volts of a port and who has an
    axis under the pointer, the way to a part's file, renaming. Needs the extra `rigmint[editor]`. House checks are not
    run, and nothing outside of the folders that the editor has open is read.
    """
    try:
        from rigmint.editor.server import make_server
    except ModuleNotFoundError as error:
        msg = "the language server needs pygls: install rigmint with the extra `rigmint[editor]`"
        raise CouldNot(msg) from error
    channel = os.fdopen(os.dup(sys.stdout.fileno()), "wb")  # its own, which pygls closes at the end
    with keep_off_output():
        make_server().start_io(sys.stdin.buffer, channel)
