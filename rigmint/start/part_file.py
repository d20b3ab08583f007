"""A part file from a kind, ports and watts: the five lines that have to be said, the rest by kind and defaults."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from rigmint.library.catalogue import Catalogue
from rigmint.library.library_file import Library
from rigmint.library.schemas import load_schema
from rigmint.rig.electric import MINUS
from rigmint.rig.part import Part
from rigmint.rig.quantity import QuantityError, parse_quantity
from rigmint.start.answers import Refusal
from rigmint.start.part_ports import StartedPort
from rigmint.start.render import render_template
from rigmint.start.write_rig import quote

PART_SUFFIX = ".part.yaml"
LEAD = "lead"
_SOURCES = ("battery", "supply")
_MAIN = "main"
_ID = re.compile(r"[a-z0-9][a-z0-9-]*(/[a-z0-9][a-z0-9._-]*)+")


@dataclass(frozen=True, slots=True)
class StartedPart:
    """What was said of a part. `watts`, `mass`: as written in the file, None where nothing was said."""

    id: str
    name: str
    kind: str
    ports: tuple[StartedPort, ...]
    watts: str | None
    mass: str | None


@cache
def list_kinds() -> tuple[str, ...]:
    """The kinds of parts, from the schema."""
    return tuple(load_schema("part")["$defs"]["kind"]["enum"])


def find_part_id(stem: str, given: str | None, library: Library) -> str:
    """The id: as given, else the house's own, by the library's title, and the file's name. Raises Refusal."""
    house = "-".join(re.findall(r"[a-z0-9]+", (library.house.title or "").casefold())[:1]) or "own"
    part_id = given or f"{house}/{'-'.join(re.findall(r'[a-z0-9]+', stem.casefold()))}"
    if not _ID.fullmatch(part_id) or part_id.startswith("generic/"):
        msg = f"`{part_id}` is no id of a part of your own: a house and a name in small letters, such as `kestrel/lamp`"
        raise Refusal(msg)
    return part_id


def read_amount(text: str | None, kind: str, unit: str) -> str | None:
    """A quantity as it is written in a file; a bare number is in `unit`. Raises Refusal."""
    if text is None or not text.strip():
        return None
    written = f"{text.strip()} {unit}" if re.fullmatch(r"\s*[0-9]+(\.[0-9]+)?\s*", text) else text.strip()
    try:
        amount = parse_quantity(written, kind)
    except QuantityError as error:
        raise Refusal(str(error)) from error
    if amount < 0.0:
        msg = f"`{written}` is below zero"
        raise Refusal(msg)
    return written


def write_part(part: StartedPart) -> str:
    """The text of the part file. Raises Refusal for ports that make no sense together."""
    names = [port.name for port in part.ports]
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice is not None:
        msg = f"there are two ports `{twice}`"
        raise Refusal(msg)
    if part.kind == LEAD:
        return _write_lead(part)
    rails = {_find_rail(part, port): port.volts for port in part.ports}
    return render_template(
        "part.yaml.j2",
        part=part,
        name=quote(part.name),
        is_source=part.kind in _SOURCES,
        gives=next((port.volts for port in part.ports if port.role == "out" and port.volts), None),
        ports=[_write_port(part, port) for port in part.ports],
        rails={rail: volts for rail, volts in rails.items() if rail != _MAIN},
        has_power=any(port.has_power for port in part.ports),
    )


def _find_rail(part: StartedPart, port: StartedPort) -> str:
    """The rail of a port: one of its own for an output of another voltage, in a part that is fed itself."""
    is_fed = part.kind not in _SOURCES and any(other.role in ("in", "either") for other in part.ports)
    if not is_fed or port.role != "out" or not port.is_single or port.volts is None:
        return _MAIN
    return "out_" + re.sub(r"[^0-9]+", "_", port.volts).strip("_") + "v"


def _write_port(part: StartedPart, port: StartedPort) -> str:
    entries = [f"connector: {port.connector.id}", f"sex: {port.sex}"]
    if port.pins is not None:
        entries.append(f"pins: {port.pins}")
    if port.has_power:
        entries += [f"rail: {_find_rail(part, port)}", f"role: {port.role}"]
        if port.volts is not None and port.role != "out":
            entries.append(f"works: {port.volts}")
    return f"{port.name}: {{{', '.join(entries)}}}{_say_port(port)}"


def _say_port(port: StartedPort) -> str:
    if port.is_pinned or port.pins is None or not port.other_pins:
        return ""
    return f"   # the commonest pin-out; meter it, it may be {' or '.join(port.other_pins)}"


def _write_lead(part: StartedPart) -> str:
    if len(part.ports) != 2:
        msg = f"a lead is begun with two ends, such as `--port a=d-tap --port b=0b-2`, and not with {len(part.ports)}"
        raise Refusal(msg)
    near, far = part.ports
    same = near.connector.id == far.connector.id and near.pins == far.pins
    return render_template(
        "lead.yaml.j2",
        part=part,
        name=quote(part.name),
        ends=part.ports,
        conductors=[] if same else _join_contacts(near, far),
        is_straight=same,
    )


def _join_contacts(near: StartedPort, far: StartedPort) -> list[tuple[str, str, str]]:
    """(from, to, role) by the pin-outs of both ends. Raises Refusal where they have nothing in common."""
    roles = [end.connector.usual[end.pins] if end.pins is not None else {} for end in (near, far)]
    joined = [
        (f"{near.name}.{contact}", f"{far.name}.{other}", role)
        for contact, role in roles[0].items()
        for other, its in roles[1].items()
        if role == its
    ]
    if not any(role != MINUS for _, _, role in joined):  # a return alone is no lead that anybody makes
        msg = (
            f"no usual pin-out joins {near.connector.id} and {far.connector.id}: name the pin-outs, such as"
            f" `{near.name}={near.connector.id},PIN-OUT`, or write the lead by hand"
        )
        raise Refusal(msg)
    return joined


def read_started_part(text: str, part_id: str, library: Library) -> Part:
    """The part as the library would read it, before its file is laid down. Raises Refusal with the reader's words."""
    with TemporaryDirectory() as folder:
        (Path(folder) / f"started{PART_SUFFIX}").write_text(text, encoding="utf-8")
        catalogue = Catalogue((*((root, str(root)) for root in library.roots[1:]), (Path(folder), "started")))
    part = catalogue.part(part_id)
    faults = [*catalogue.faults_of(part_id), *catalogue.faults.in_order()]
    ours = [fault.says for fault in faults if fault.file.startswith("started")]
    if part is None or ours:
        msg = "; ".join(ours or [fault.says for fault in faults])
        raise Refusal(msg)
    return part


def find_usual_sex(kind: str) -> str:
    """The sex that a port has unless it is said: a lead's ends are plugs, a device's ports sockets."""
    return "plug" if kind == LEAD else "socket"
