"""`rigmint reference`: codes, file keys and the pack contract, generated from the code."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import click

from rigmint.commands.options import out_option
from rigmint.commands.output import choose_style, write_output
from rigmint.lint.packs import load_packs
from rigmint.report.reference.codes import list_codes
from rigmint.report.reference.contract import list_contract
from rigmint.report.reference.keys import list_keys

_TOPICS: dict[str, Callable[[], Iterator[str]]] = {
    "codes": lambda: list_codes(load_packs()),
    "keys": list_keys,
    "contract": list_contract,
}


@click.command("reference", short_help="The whole reference: codes, file keys, pack contract.")
@click.argument("topic", required=False, type=click.Choice(tuple(_TOPICS)))
@out_option()
def command(*, topic: str | None, out: Path | None) -> None:
    """The whole reference as Markdown, or one TOPIC of it: codes, keys (of the files) or contract (of packs)."""
    topics = [topic] if topic is not None else list(_TOPICS)
    text = "\n\n".join("\n".join(_TOPICS[name]()) for name in topics)
    write_output(f"{text}\n", out, choose_style(plain=True, out=out))
