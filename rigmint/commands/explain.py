"""`rigmint explain`: everything that a rule holds."""

from __future__ import annotations

from pathlib import Path

import click

from rigmint.commands.options import out_option, plain_option
from rigmint.commands.output import choose_style, write_output
from rigmint.library.faults import suggest
from rigmint.lint.core_codes import CORE_CODES
from rigmint.lint.packs import PackSet, load_packs
from rigmint.report.explain import render_core_code, render_rule
from rigmint.report.safe import clean
from rigmint.report.style import Style


@click.command("explain", short_help="What a rule looks for, why, how to put it right, from where it is known.")
@click.argument("code")
@out_option()
@plain_option()
def command(*, code: str, out: Path | None, plain: bool) -> None:
    """What the rule of CODE looks for, why, how to put it right, from where it is known."""
    style = choose_style(plain=plain, out=out)
    write_output(_render(code, style), out, style)


def _render(code: str, style: Style) -> str:
    core = next((core for core in CORE_CODES if core.code == code), None)
    if core is not None:
        return render_core_code(core, style)
    packs = load_packs()
    for pack in packs.packs:
        for rule in pack.rules:
            if rule.code == code:
                return render_rule(rule, pack, style)
    raise click.UsageError(_say_unknown(code, packs))


def _say_unknown(code: str, packs: PackSet) -> str:
    known = [core.code for core in CORE_CODES] + [rule.code for pack in packs.packs for rule in pack.rules]
    family = sorted(one for one in known if one.partition(":")[0] == code)
    if family:
        return f"`{clean(code)}` is a family; its codes are {', '.join(family)}"
    broken = sorted({fault.file for fault in packs.faults})
    missing = f" These packs could not be used: {', '.join(broken)}." if broken else ""
    meant = suggest(code, known) or ": `rigmint packs` lists the codes."
    return f"there is no code `{clean(code)}`{meant}{missing}"
