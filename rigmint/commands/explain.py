"""`rigmint explain`: everything that a rule holds."""

from __future__ import annotations

from pathlib import Path

import click

from rigmint.commands.options import library_option, out_option, plain_option
from rigmint.commands.output import choose_style, write_output
from rigmint.library.faults import suggest
from rigmint.library.library_file import find_library_file
from rigmint.lint.core_codes import CORE_CODES
from rigmint.lint.packs import PackSet, load_packs
from rigmint.report.explain import render_core_code, render_rule
from rigmint.report.safe import clean
from rigmint.report.style import Style


@click.command("explain", short_help="What a rule looks for, why, how to put it right, from where it is known.")
@click.argument("code")
@library_option()
@click.option("--house-checks", is_flag=True, help="Run the checks in Python that the library lists, to explain them.")
@out_option()
@plain_option()
def command(*, code: str, library: Path | None, house_checks: bool, out: Path | None, plain: bool) -> None:
    """What the rule of CODE looks for, why, how to put it right, from where it is known."""
    style = choose_style(plain=plain, out=out)
    write_output(_render(code, library, house_checks, style), out, style)


def _render(code: str, library: Path | None, house_checks: bool, style: Style) -> str:
    core = next((core for core in CORE_CODES if core.code == code), None)
    if core is not None:
        return render_core_code(core, style)
    packs = load_packs()
    if house_checks:
        packs = _add_house_checks(packs, library)
    for pack in packs.packs:
        for rule in pack.rules:
            if rule.code == code:
                return render_rule(rule, pack, style)
    raise click.UsageError(_say_unknown(code, packs))


def _add_house_checks(packs: PackSet, library: Path | None) -> PackSet:
    from rigmint.lint.open_library import open_library

    opened = open_library(
        library if library is not None else find_library_file(Path("any.rig.yaml")), packs, house_checks=True
    )
    return PackSet(opened.packs.packs, (*packs.faults, *opened.checks.faults))


def _say_unknown(code: str, packs: PackSet) -> str:
    known = [core.code for core in CORE_CODES] + [rule.code for pack in packs.packs for rule in pack.rules]
    family = sorted(one for one in known if one.partition(":")[0] == code)
    if family:
        return f"`{clean(code)}` is a family; its codes are {', '.join(family)}"
    broken = sorted({fault.file for fault in packs.faults})
    missing = f" These packs could not be used: {', '.join(broken)}." if broken else ""
    meant = suggest(code, known) or (
        ": `rigmint packs` lists the codes; those of a library's own checks are explained with `--house-checks`."
    )
    return f"there is no code `{clean(code)}`{meant}{missing}"
