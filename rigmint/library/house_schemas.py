"""The house's own JSON Schemas, which every rig or part of its library must meet on top of the project's."""

from __future__ import annotations

from rigmint.library.catalogue import Catalogue
from rigmint.library.document import Document
from rigmint.library.faults import Fault, FaultList
from rigmint.library.house_files import HouseFile, HousePaths
from rigmint.library.schema_process import BrokeOff, SchemaProcess, TookTooLong
from rigmint.library.schema_request import SchemaFault
from rigmint.library.yaml import parse_yaml, read_text
from rigmint.rig.place import Position

SECONDS = 5.0
"""The longest that a file, or a schema itself, is looked at: thousands of times what a sound schema takes."""
_START = Position(1, 1)


class HouseSchemas:
    """The schemas of one library, each read when it is first asked for."""

    def __init__(self, paths: HousePaths, seconds: float = SECONDS) -> None:
        """`seconds`: the time after which a schema is given up."""
        self._rig = _Schema(paths.rig_schema, seconds) if paths.rig_schema is not None else None
        self._part = _Schema(paths.part_schema, seconds) if paths.part_schema is not None else None

    def find_faults(self) -> tuple[Fault, ...]:
        """What makes a schema itself useless."""
        return tuple(fault for schema in (self._rig, self._part) if schema is not None for fault in schema.faults)

    def check_rig(self, document: Document) -> tuple[Fault, ...]:
        """What the schema for rigs holds against a rig file, as it stands after `like:`."""
        return self._rig.check(document) if self._rig is not None else ()

    def check_parts(self, catalogue: Catalogue) -> tuple[Fault, ...]:
        """What the schema for parts holds against the parts of the library's own folders."""
        if self._part is None:
            return ()
        return tuple(fault for document in catalogue.own_documents() for fault in self._part.check(document))


class _Schema:
    def __init__(self, file: HouseFile, seconds: float) -> None:
        self._file = file
        self._seconds = seconds
        self._process: SchemaProcess | None = None
        self._given_up: str | None = None
        self._faults: tuple[Fault, ...] | None = None

    @property
    def faults(self) -> tuple[Fault, ...]:
        """What is wrong with the schema; it is read now, if it was not yet."""
        if self._faults is None:
            self._faults = self._read()
        return self._faults

    def check(self, document: Document) -> tuple[Fault, ...]:
        """What it holds against a document: nothing while the schema itself has faults, which are said once."""
        if self.faults:
            return ()
        if self._process is None:
            return (self._say_unchecked(document.file, self._given_up or "the checking of it stopped"),)
        try:
            answer = self._process.ask({"tree": document.tree})
        except (TookTooLong, BrokeOff) as error:
            self._give_up(error)
            return (self._say_unchecked(document.file, self._given_up or ""),)
        if answer["failed"] is not None:
            return (self._say_unchecked(document.file, answer["failed"]),)
        found = FaultList()
        for path, code, says in answer["refusals"]:
            file, position = document.locate(tuple(path))
            found.add(file, position, code, f"house schema {self._file.shown}: {says}")
        return found.in_order()

    def _read(self) -> tuple[Fault, ...]:
        faults = FaultList()
        text = read_text(self._file.path, self._file.shown, faults)
        if text is None:
            return faults.in_order()
        try:
            self._process = SchemaProcess(self._seconds)
            answer = self._process.ask({"schema": text})
        except (TookTooLong, BrokeOff) as error:
            self._give_up(error)
            says = f"the schema could not be read: {self._given_up}"
            return (Fault(self._file.shown, 1, 1, "file:bad-value", says),)
        for one in map(SchemaFault.from_json, answer):
            position = _locate(one, text, self._file.shown)
            faults.add(self._file.shown, position, one.code, one.says)
        return faults.in_order()

    def _give_up(self, error: TookTooLong | BrokeOff) -> None:
        self._process = None
        if isinstance(error, TookTooLong):
            limit = f"{self._seconds:g} s"
            self._given_up = f"it took more than {limit} and was stopped: look for patterns such as `(a+)+`"
        else:
            self._given_up = f"the process that checks it ended ({error})"

    def _say_unchecked(self, file: str, why: str) -> Fault:
        says = f"{file} was not checked against the house schema {self._file.shown}: {why}"
        return Fault(self._file.shown, 1, 1, "file:bad-value", says)


def _locate(fault: SchemaFault, text: str, shown: str) -> Position:
    """Where in the schema; JSON is close enough to YAML to be read for its positions."""
    if fault.line is not None:
        return Position(fault.line, fault.column)
    document = parse_yaml(text, shown, FaultList())
    return document.position(fault.path) if document is not None else _START
