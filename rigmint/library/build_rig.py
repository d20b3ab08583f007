"""Reads a rig file into an immutable Rig, with all its faults at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import Any

from rigmint.library.build_answers import build_acceptances, build_metered, find_impossible_dates
from rigmint.library.build_device import build_requirements
from rigmint.library.build_kit import build_docks, build_items, build_leads, build_links
from rigmint.library.build_setups import SetupBuilder
from rigmint.library.document import Document, Path
from rigmint.library.faults import Fault, FaultList, suggest
from rigmint.library.library_file import Library, show_path
from rigmint.library.like import merge_documents
from rigmint.library.paths import resolve_path
from rigmint.library.rig_scope import RigScope
from rigmint.library.schemas import decode_document
from rigmint.library.scope import as_tuple, freeze, numbered
from rigmint.library.yaml import parse_yaml, read_text
from rigmint.rig.axes import rings_of
from rigmint.rig.rig import AirUser, Fitting, Item, Lead, Rig, Spare


@dataclass(frozen=True, slots=True)
class ReadRig:
    """The outcome of reading one rig file: a rig, or faults. Never both a rig and a fault of its file."""

    file: str
    rig: Rig | None
    faults: tuple[Fault, ...]
    document: Document | None = None
    """The file as it stands after `like:`, where it could be parsed."""


def read_rig(
    path: FilePath, library: Library, *, text_from: FilePath | None = None, shown: str | None = None
) -> ReadRig:
    """Read and assemble a rig file. `text_from`: another file that holds what is to be read as if it stood at `path`;
    `shown`: the name by which reports know it, its path where none is given."""
    shown = show_path(path) if shown is None else shown
    faults = FaultList()
    document = read_document(path, library, faults, text_from, shown)
    if document is None:
        return ReadRig(shown, None, faults.in_order())
    return assemble_rig(document, library, faults)


def read_rig_text(text: str, path: FilePath, library: Library) -> ReadRig:
    """Assemble a rig from a text that stands for what `path` holds, such as that of an editor."""
    shown = show_path(path)
    faults = FaultList()
    document = parse_yaml(text, shown, faults)
    if document is not None:
        document = _resolve_like(document, path.resolve(), library, faults, (path.resolve(),))
    if document is None:
        return ReadRig(shown, None, faults.in_order())
    return assemble_rig(document, library, faults)


def read_document(
    path: FilePath, library: Library, faults: FaultList, text_from: FilePath | None = None, shown: str | None = None
) -> Document | None:
    """A rig file laid over what it starts from, as `read_rig` does it first."""
    shown = show_path(path) if shown is None else shown
    text = read_text(path if text_from is None else text_from, shown, faults)
    document = parse_yaml(text, shown, faults) if text is not None else None
    if document is None:
        return None
    return _resolve_like(document, resolve_path(path), library, faults, (resolve_path(path),))


def reassemble_rig(document: Document, text: str, library: Library) -> ReadRig:
    """The rig as its file would give it with another text, whose `like:` is the same."""
    faults = FaultList()
    changed = parse_yaml(text, document.file, faults)
    if changed is None:
        return ReadRig(document.file, None, faults.in_order())
    if document.base is not None:
        changed = merge_documents(changed, document.base)
    return assemble_rig(changed, library, faults)


def assemble_rig(document: Document, library: Library, faults: FaultList) -> ReadRig:
    """Assemble a parsed rig document."""
    decoded = decode_document(document, "rig", faults)
    if decoded is None or not isinstance(decoded, Mapping):
        return ReadRig(document.file, None, faults.in_order(), document)
    scope = RigScope(document, faults, library.catalogue)
    rig = _build(decoded, scope)
    if faults.found:
        return ReadRig(document.file, None, faults.in_order(), document)
    return ReadRig(document.file, rig, (), document)


def _resolve_like(
    document: Document, path: FilePath, library: Library, faults: FaultList, chain: tuple[FilePath, ...]
) -> Document | None:
    reference = document.as_mapping().get("like")
    if not isinstance(reference, str):
        return document
    position = document.position(("like",))
    target = resolve_path(path.parent / reference)
    if target in chain:
        ring = " > ".join(show_path(step) for step in (*chain, target))
        faults.add(document.file, position, "file:circle", f"`like:` runs in a circle: {ring}")
        return None
    roots = library.roots or (chain[0].parent,)
    if not any(target.is_relative_to(root) for root in roots):
        code = "file:unreadable" if library.roots else "file:no-library"
        says = f"`like: {reference}` leads out of the library's folder"
        if not library.roots:
            says = f"`like: {reference}` leads out of the rig's folder: put a `rigmint.yaml` above both"
        faults.add(document.file, position, code, says)
        return None
    inner = FaultList()
    shown = show_path(target)
    text = read_text(target, shown, inner)
    base = parse_yaml(text, shown, inner) if text is not None else None
    if base is not None:
        base = _resolve_like(base, target, library, inner, (*chain, target))
    for fault in inner.found:
        if text is None:
            faults.add(document.file, position, fault.code, f"`like: {reference}`: {fault.says}")
        else:
            faults.found.append(fault)
    return merge_documents(document, base) if base is not None else None


def _build(tree: Mapping[str, Any], scope: RigScope) -> Rig:
    items = build_items(tree, scope)
    docks = build_docks(tree, items, scope)
    leads = build_leads(tree, items, scope)
    links = build_links(tree, items, scope)
    setups = SetupBuilder(tree, items, leads, docks, links, scope).build()
    metered = build_metered(tree.get("metered", {}))
    for label in metered:
        _check_label(("metered", label), label, scope)
    for index, _ in numbered(tree.get("accepted")):
        scope.note(f"accepted.{index}", ("accepted", index))
    for index, says in find_impossible_dates(tree.get("accepted", ())):
        scope.fault(("accepted", index, "until"), "file:bad-value", says)
    for index, _ in numbered(tree.get("requires")):
        scope.note(f"requires.{index}", ("requires", index))
    for key in ("on", "stance", "where", "region", "needs"):
        if scope.document.has((key,)):
            scope.note(f"rig:{key}", (key,))
    return Rig(
        file=scope.document.file,
        title=str(tree["rig"]),
        says=tree.get("says"),
        job=tree.get("job"),
        job_file=scope.document.locate(("job",))[0] if tree.get("job") is not None else None,
        items=freeze(items),
        leads=freeze(leads),
        docks=docks,
        links=freeze(links),
        air=tuple(AirUser(str(a.get("says", "")), a["centre"], a["width"]) for _, a in numbered(tree.get("air"))),
        fitted=freeze(_build_fittings(tree, items, scope)),
        setups=freeze(setups),
        marked=freeze(_build_marked(tree, items, leads, scope)),
        tied=_build_tied(tree, items, leads, scope),
        metered=freeze(metered),
        spares=_build_spares(tree, scope),
        requires=tuple(build_requirements(tree.get("requires", ()), "requires")),
        accepted=build_acceptances(tree.get("accepted", ()), "accepted"),
        positions=freeze(scope.positions),
        protocols=scope.catalogue.tokens.protocols,
        assumed=list_assumed(items, leads),
    )


def _check_label(path: Path, label: str, scope: RigScope) -> None:
    leads = scope.document.as_mapping().get("leads")
    known = leads if isinstance(leads, Mapping) else {}
    if label not in known:
        scope.fault(path, "file:unknown-name", f"there is no lead `{label}`{suggest(label, known)}")


def _check_lead_place(path: Path, place: str, leads: Mapping[str, Lead], scope: RigScope) -> None:
    """A lead's label, or `label:end`."""
    label, _, end = place.partition(":")
    _check_label(path, label, scope)
    if end and label in leads and end not in leads[label].body.ends:
        listed = ", ".join(f"`{name}`" for name in leads[label].body.ends)
        scope.fault(path, "file:unknown-name", f"`{place}`: this lead has no end `{end}`; it has {listed}")


def _build_fittings(tree: Mapping[str, Any], items: Mapping[str, Item], scope: RigScope) -> dict[str, Fitting]:
    fittings = {}
    for motor, body in tree.get("fitted", {}).items():
        path = ("fitted", motor)
        place = body if isinstance(body, str) else body["ring"]
        lens_name, _, ring = place.partition(".")
        motor_item = scope.item(path, motor, items)
        lens = scope.item(path, lens_name, items, place)
        if motor_item is None or lens is None:
            continue
        rings = rings_of(lens.part)
        if ring not in rings:
            says = f"`{place}`: `{lens.part.id}` has no ring `{ring}`{suggest(ring, rings)}"
            scope.fault(path, "file:unknown-name", says)
            continue
        extra = body if isinstance(body, Mapping) else {}
        scope.note(f"{motor}.fitted", path)
        fittings[motor] = Fitting(motor, lens_name, ring, extra.get("direction"), extra.get("marked"))
    return fittings


def _build_marked(
    tree: Mapping[str, Any], items: Mapping[str, Item], leads: Mapping[str, Lead], scope: RigScope
) -> dict[str, str]:
    for place in tree.get("marked", {}):
        if "." in place:
            scope.port(("marked", place), place, items)
        elif place not in items and place not in scope.broken:
            _check_lead_place(("marked", place), place, leads, scope)
    return dict(tree.get("marked", {}))


def _build_tied(
    tree: Mapping[str, Any], items: Mapping[str, Item], leads: Mapping[str, Lead], scope: RigScope
) -> frozenset[str]:
    for index, place in numbered(tree.get("tied")):
        if "." in place:
            scope.port(("tied", index), place, items)
        else:
            _check_lead_place(("tied", index), place, leads, scope)
    return frozenset(as_tuple(tree.get("tied")))


def _build_spares(tree: Mapping[str, Any], scope: RigScope) -> tuple[Spare, ...]:
    spares = []
    for index, body in numbered(tree.get("also")):
        scope.note(f"also.{index}", ("also", index))
        part = scope.part(("also", index, "part"), body["part"])
        if part is not None:
            spares.append(Spare(part, body.get("count", 1), body.get("why")))
    return tuple(spares)


def list_assumed(items: Mapping[str, Item], leads: Mapping[str, Lead]) -> tuple[str, ...]:
    """Every figure of the rig for which a default stands in, as `place figure`."""
    found = []
    for name, item in items.items():
        for port in item.part.ports.values():
            found += [f"{name}.{port.name} {figure}" for figure in sorted(port.assumed)]
        for cell in item.part.cells.values():
            found += [f"{name}.{cell.name} {figure}" for figure in sorted(cell.assumed)]
        for rail in item.part.rails.values():
            found += [f"{name} {rail.name} {figure}" for figure in sorted(rail.assumed)]
    for label, lead in leads.items():
        found += [f"{label} {figure}" for figure in sorted(lead.assumed)]
        if not lead.body.straight and any(conductor.assumed for conductor in lead.body.conductors):
            found.append(f"{label} gauge")
    return tuple(found)
