"""The catalogue: connectors, protocols and parts from the package, from entry points, and from a library's folders."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator, Mapping
from importlib.metadata import entry_points
from pathlib import Path
from typing import TypeAlias

from rigmint.library.build_part import build_part
from rigmint.library.build_tokens import build_connectors, build_protocols
from rigmint.library.document import Document, Value
from rigmint.library.faults import Fault, FaultList, find_nearest
from rigmint.library.foreign import describe_error, keep_off_output
from rigmint.library.like import merge_documents
from rigmint.library.paths import is_folder, resolve_path
from rigmint.library.schemas import decode_document
from rigmint.library.scope import Scope, Tokens
from rigmint.library.walk import CATALOGUE_KINDS, walk_catalogue_files
from rigmint.library.yaml import parse_yaml, read_text
from rigmint.rig.connector import Connector, Protocol
from rigmint.rig.part import Part
from rigmint.rig.place import Position

ENTRY_POINTS = "rigmint.catalogues"
GENERIC = "generic/"
Parse: TypeAlias = Callable[[str, str, FaultList], Document | None]
"""As `parse_yaml`."""


class Catalogue:
    """Parts by id, read when they are asked for. Immutable for its users; it caches what it has built."""

    def __init__(
        self,
        folders: Iterable[tuple[Path, str]],
        parse: Parse = parse_yaml,
        files: Iterable[tuple[Path, str]] = (),
        *,
        root: Path | None = None,
    ) -> None:
        """Read the files below each (folder, name shown in messages), and single files, given likewise, that lie in
        none of them. `parse`: text to document; `root`: the library's resolved folder, out of which no link in the
        folders may lead."""
        self._parse_text = parse
        self._root = root
        self._shown: dict[Path, str] = {}
        """Resolved path to the name shown in messages."""
        self.faults = FaultList()
        self._entries: dict[str, Document] = {}
        self._owned: set[str] = set()
        self._parts: dict[str, Part | None] = {}
        self._part_faults: dict[str, tuple[Fault, ...]] = {}
        offered, refused = find_installed()
        self.faults.found += refused
        installed = [self._read_folder(*folder, is_own=False) for folder in offered]
        own = [self._read_folder(folder, shown, is_own=True) for folder, shown in folders]
        own += [self._read_file(path, shown, kind, is_own=True) for path, shown in files for kind in _kinds_of(path)]
        connectors: dict[str, Connector] = {}
        protocols: dict[str, Protocol] = {}
        for layer in (installed, own):  # a library's own declaration of a token wins over the installed one
            documents = [entry for found in layer for entry in found]
            connectors |= build_connectors([d for kind, d in documents if kind == "connectors"], self.faults)
            protocols |= build_protocols([d for kind, d in documents if kind == "protocols"], self.faults)
        self.tokens = Tokens(connectors, protocols)

    def _read_folder(self, folder: Path, shown: str, *, is_own: bool) -> list[tuple[str, Document]]:
        """Index the parts below a folder; the connector and protocol files are given back."""
        return [
            token
            for path, kind in _find_files(folder)
            if not (is_own and self._leads_out(path, _join(shown, path.relative_to(folder))))
            for token in self._read_file(path, _join(shown, path.relative_to(folder)), kind, is_own=is_own)
        ]

    def _read_file(self, path: Path, shown: str, kind: str, *, is_own: bool) -> list[tuple[str, Document]]:
        """A file, unless it was read already."""
        real = resolve_path(path)
        if real in self._shown:
            return []
        self._shown[real] = shown
        document = self._parse(path, shown)
        if document is None:
            return []
        if kind != "part":
            return [(kind, document)]
        self._add_parts(document, is_own)
        return []

    def _leads_out(self, path: Path, name: str) -> bool:
        if self._root is None or not path.is_symlink() or resolve_path(path).is_relative_to(self._root):
            return False
        self.faults.add(
            name, Position(1, 1), "file:unreadable", "this is a link that leads out of the library's folder"
        )
        return True

    @property
    def part_ids(self) -> tuple[str, ...]:
        """Every part id, sorted."""
        return tuple(sorted(self._entries))

    def part(self, part_id: str) -> Part | None:
        """The part; None when there is none, or when its file has faults (see `faults_of`)."""
        if part_id not in self._parts:
            self._parts[part_id] = self._build(part_id) if part_id in self._entries else None
        return self._parts[part_id]

    def list_leads(self) -> tuple[Part, ...]:
        """Every lead, by id."""
        leads = (self.part(part_id) for part_id in self.part_ids)
        return tuple(part for part in leads if part is not None and part.lead is not None)

    def faults_of(self, part_id: str) -> tuple[Fault, ...]:
        """What is wrong with a part's file."""
        return self._part_faults.get(part_id, ())

    def nearest(self, part_id: str) -> str | None:
        """The nearest id, for a message."""
        return find_nearest(part_id, self._entries)

    def file_of(self, part_id: str) -> str:
        """The file that holds a part."""
        return self._entries[part_id].file

    def entry_of(self, part_id: str) -> Document | None:
        """The entry of a file that writes a part, without what it starts from; None where there is no such part."""
        return self._entries.get(part_id)

    def path_of(self, part_id: str) -> Path | None:
        """Where the file that holds a part lies; None where there is no such part."""
        entry = self._entries.get(part_id)
        return next((path for path, name in self._shown.items() if entry is not None and name == entry.file), None)

    def shown_name(self, path: Path) -> str | None:
        """How messages name a file that was read; None for one that was not."""
        return self._shown.get(resolve_path(path))

    def ids_in(self, file: str) -> tuple[str, ...]:
        """The parts of a file, by the name that messages show, in the order of the file."""
        return tuple(part_id for part_id, entry in self._entries.items() if entry.file == file)

    def own_files(self) -> tuple[str, ...]:
        """The files that hold the library's own parts, in order."""
        return tuple(sorted({self._entries[part_id].file for part_id in self._owned}))

    def installed_files(self) -> tuple[str, ...]:
        """The files that hold the parts which installed packages bring, in order."""
        return tuple(sorted({entry.file for part_id, entry in self._entries.items() if part_id not in self._owned}))

    def document_of(self, part_id: str) -> Document | None:
        """A part as it stands after `like:`; None where there is no such part, or what it starts from is not there."""
        return self._resolve_like(part_id, (), FaultList()) if part_id in self._entries else None

    def tree_of(self, part_id: str) -> Value:
        """What a part's file says, with what it starts from; None where there is no such part."""
        document = self.document_of(part_id)
        return document.tree if document is not None else None

    def check_owned(self) -> Mapping[str, tuple[Fault, ...]]:
        """Build every part of the library's own folders; the faults of each."""
        for part_id in sorted(self._owned):
            self.part(part_id)
        return {part_id: self._part_faults[part_id] for part_id in self._owned if part_id in self._part_faults}

    def own_documents(self) -> Iterator[Document]:
        """The parts of the library's own folders as they stand after `like:`, by id; what leads nowhere is left out."""
        for part_id in sorted(self._owned):
            merged = self._resolve_like(part_id, (), FaultList())
            if merged is not None:
                yield merged

    def _parse(self, path: Path, name: str) -> Document | None:
        text = read_text(path, name, self.faults)
        return self._parse_text(text, name, self.faults) if text is not None else None

    def _add_parts(self, document: Document, is_own: bool) -> None:
        tree = document.as_mapping()
        if "parts" in tree:
            for key in tree:
                if key != "parts":
                    says = f"`{key}` stands beside `parts`: nothing else stands at the top of a list of parts"
                    self.faults.add(document.file, document.position((key,)), "file:unknown-key", says)
        for entry in _split_parts(document):
            part_id = entry.as_mapping().get("id")
            if not isinstance(part_id, str):
                decode_document(entry, "part", self.faults)
                continue
            if is_own and part_id.startswith(GENERIC):
                says = f"`{part_id}`: a library cannot redefine a generic part; give it an id of the house's own"
                self.faults.add(entry.file, entry.position(("id",)), "file:two-parts", says)
                continue
            other = self._entries.get(part_id)
            if other is not None:
                says = f"`{part_id}` is the id of two parts; the other one is in {other.file}"
                self.faults.add(entry.file, entry.position(("id",)), "file:two-parts", says)
                continue
            self._entries[part_id] = entry
            if is_own:
                self._owned.add(part_id)

    def _build(self, part_id: str) -> Part | None:
        faults = FaultList()
        self._gather_text_faults(self._entries[part_id], faults)
        merged = self._resolve_like(part_id, (), faults)
        part = None
        if merged is not None:
            decoded = decode_document(merged, "part", faults)
            if decoded is not None and "kind" in decoded:
                part = build_part(decoded, Scope(merged, faults, self.tokens))
        if faults.found:
            self._part_faults[part_id] = faults.in_order()
            return None
        return part

    def _gather_text_faults(self, entry: Document, faults: FaultList) -> None:
        """What the reader found between the entry's first line and that of the next: a key twice, an anchor."""
        found = [fault for fault in self.faults.found if fault.file == entry.file]
        if not found:
            return
        first = entry.position(()).line if entry.prefix else 0
        index = entry.prefix[-1] if entry.prefix else None
        following = entry.marks.values.get(("parts", index + 1)) if isinstance(index, int) else None
        last = following.position.line if following is not None else float("inf")
        faults.found += [fault for fault in found if first <= fault.line < last]

    def _resolve_like(self, part_id: str, chain: tuple[str, ...], faults: FaultList) -> Document | None:
        entry = self._entries[part_id]
        base_id = entry.as_mapping().get("like")
        if base_id is None:
            return entry
        if base_id in (*chain, part_id):
            ring = " > ".join((*chain, part_id, str(base_id)))
            faults.add(entry.file, entry.position(("like",)), "file:circle", f"`like:` runs in a circle: {ring}")
            return None
        if not isinstance(base_id, str) or base_id not in self._entries:
            near = self.nearest(str(base_id))
            meant = f": did you mean `{near}`?" if near else ""
            faults.add(
                entry.file, entry.position(("like",)), "file:unknown-name", f"there is no part `{base_id}`{meant}"
            )
            return None
        base = self._resolve_like(base_id, (*chain, part_id), faults)
        return merge_documents(entry, base) if base is not None else None


def find_installed() -> tuple[tuple[tuple[Path, str], ...], tuple[Fault, ...]]:
    """Folder and name of the package's own catalogue, and of those that installed packages offer by entry point; a
    fault for each that fails."""
    found = [(Path(__file__).parent.parent / "catalogue", "rigmint/catalogue")]
    faults = []
    for point in sorted(entry_points(group=ENTRY_POINTS), key=lambda entry: entry.name):
        package = f"{point.dist.name} {point.dist.version}" if point.dist is not None else "an unknown package"
        named = f"the catalogue {point.name} of {package}"
        try:
            with keep_off_output():
                offered = point.load()
                folder = Path(offered() if callable(offered) else offered)
        except KeyboardInterrupt:
            raise
        except BaseException as error:
            says = f"{named} cannot be used: {describe_error(error)}"
            faults.append(Fault(point.name, 1, 1, "file:unreadable", says))
            continue
        if is_folder(folder):
            found.append((folder, point.name))
        else:
            says = f"{named} offers the folder {folder}, which is not there"
            faults.append(Fault(point.name, 1, 1, "file:unreadable", says))
    return tuple(found), tuple(faults)


def _find_files(folder: Path) -> Iterator[tuple[Path, str]]:
    """Catalogue files below a folder in name order; links to folders are not followed."""
    for entry in walk_catalogue_files(os.fspath(folder)):
        kind = next(kind for suffix, kind in CATALOGUE_KINDS.items() if entry.name.endswith(suffix))
        yield Path(entry.path), kind


def _kinds_of(path: Path) -> list[str]:
    return [kind for suffix, kind in CATALOGUE_KINDS.items() if path.name.endswith(suffix)]


def _join(shown: str, relative: Path) -> str:
    return f"{shown}/{relative.as_posix()}" if shown not in ("", ".") else relative.as_posix()


def _split_parts(document: Document) -> list[Document]:
    entries = document.as_mapping().get("parts")
    if not isinstance(entries, list):
        return [document]
    return [
        Document(document.file, entry, document.marks, ("parts", index), text=document.text)
        for index, entry in enumerate(entries)
    ]
