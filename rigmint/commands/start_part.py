"""`rigmint start part`: a part file from a kind, ports and watts."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

import click

from rigmint.commands.options import library_option, plain_option
from rigmint.commands.output import choose_style, write_output
from rigmint.library.library_file import Library, find_library_file, load_library
from rigmint.report.parts import render_parts
from rigmint.report.safe import clean
from rigmint.rig.connector import Connector
from rigmint.start.answers import Refusal
from rigmint.start.names import find_file, find_stem, find_title, write_new
from rigmint.start.part_file import (
    PART_SUFFIX,
    StartedPart,
    find_part_id,
    find_usual_sex,
    list_kinds,
    read_amount,
    read_started_part,
    write_part,
)
from rigmint.start.part_ports import StartedPort, read_port

_PORT_HINT = "NAME=CONNECTOR[,plug|socket][,in|out][,11-17 V]"


@click.command("part", short_help="A part file from a kind, ports and watts.")
@click.argument("name")
@click.option("--kind", metavar="KIND", help="What it is: camera, monitor, light, lead ...")
@click.option("--port", "ports", multiple=True, metavar=_PORT_HINT, help="A port, or an end of a lead; repeat it.")
@click.option("--watts", metavar="WATTS", help="What it draws.")
@click.option("--mass", metavar="MASS", help="What it weighs, such as 250 g.")
@click.option("--id", "part_id", metavar="HOUSE/NAME", help="Its id. Default: by the library's title and NAME.")
@click.option("--yes", is_flag=True, help="Ask nothing: what is not given as an option is left to defaults.")
@library_option()
@plain_option()
def part(
    *,
    name: str,
    kind: str | None,
    ports: tuple[str, ...],
    watts: str | None,
    mass: str | None,
    part_id: str | None,
    yes: bool,
    library: Path | None,
    plain: bool,
) -> None:
    """Lay down NAME.part.yaml: five lines that have to be said, the rest by kind and defaults, with comments."""
    is_asking = not yes and sys.stdin.isatty()
    try:
        path = find_file(name, PART_SUFFIX)
        loaded = load_library(library if library is not None else find_library_file(path))
        stem = find_stem(path, PART_SUFFIX)
        kind = _find_kind(kind, is_asking=is_asking)
        connectors = loaded.catalogue.tokens.connectors
        read = [read_port(text, connectors, find_usual_sex(kind)) for text in ports]
        if is_asking and not read:
            read = _ask_ports(connectors, kind)
        if is_asking and watts is None and any(one.role == "in" for one in read):
            watts = click.prompt("What it draws, in W (nothing: not known)", default="", show_default=False)
        begun = StartedPart(
            id=find_part_id(stem, part_id, loaded),
            name=find_title(stem),
            kind=kind,
            ports=tuple(read),
            watts=read_amount(watts, "power", "W"),
            mass=read_amount(mass, "mass", "g"),
        )
        text = write_part(begun)
        found = read_started_part(text, begun.id, loaded)
        write_new(path, text)
    except Refusal as error:
        raise click.ClickException(clean(str(error))) from error
    style = choose_style(plain=plain)
    said = [f"Laid down {clean(str(path))}.", *_say_pins(begun.ports), *_say_unread(path, loaded)]
    shown = "\n".join(said) + f"\n\n{render_parts([found], style)}"
    write_output(shown, None, style)


def _find_kind(kind: str | None, *, is_asking: bool) -> str:
    kinds = list_kinds()
    if kind is None and is_asking:
        kind = click.prompt(f"What is it ({', '.join(kinds)})", default="accessory")
    kind = (kind or "accessory").strip().casefold().replace(" ", "_").replace("-", "_")
    begun = [one for one in kinds if one.startswith(kind)]
    if kind not in kinds and len(begun) == 1:
        return begun[0]
    if kind not in kinds:
        msg = f"`{kind}` is no kind of part: {', '.join(kinds)}"
        raise Refusal(msg)
    return kind


def _ask_ports(connectors: Mapping[str, Connector], kind: str) -> list[StartedPort]:
    """Ports one by one, until nothing is said."""
    found: list[StartedPort] = []
    while True:
        asked = "First port" if not found else "Next port"
        text: str = click.prompt(f"{asked}, {_PORT_HINT} (nothing: done)", default="", show_default=False)
        if not text.strip():
            return found
        try:
            found.append(read_port(text, connectors, find_usual_sex(kind)))
        except Refusal as error:
            click.echo(clean(str(error)))


def _say_pins(ports: Sequence[StartedPort]) -> Iterator[str]:
    """Which pin-outs nobody said."""
    for port in ports:
        if port.pins is not None and port.has_power and port.other_pins and not port.is_pinned:
            connector = port.connector.id
            yield f"{port.name} is taken to be wired {port.pins}, the commonest pin-out of {connector}: meter it."


def _say_unread(path: Path, library: Library) -> Iterator[str]:
    """That no library reads the file, where none does."""
    folder = path.resolve().parent
    if not any(folder.is_relative_to(root) for root in library.roots[1:]):
        yield "No library reads it there: put it into a folder that a rigmint.yaml lists under `parts:`."
