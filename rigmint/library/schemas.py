"""The JSON Schemas of the files, and their decoders, each compiled once."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from rigmint.library.decode import SchemaDecoder
from rigmint.library.document import Document
from rigmint.library.explain import explain_refusal
from rigmint.library.faults import FaultList

KINDS = ("rig", "part", "library", "connectors", "protocols")


@cache
def load_schema(kind: str) -> dict[str, Any]:
    """The schema of a kind of file."""
    schema: dict[str, Any] = json.loads((find_schema_folder() / f"{kind}.schema.json").read_text(encoding="utf-8"))
    return schema


@cache
def _entry_schema(kind: str) -> dict[str, Any]:
    """The schema of what is decoded: of a part file, one entry, since a file may list several."""
    schema = load_schema(kind)
    return {"$ref": "#/$defs/part_entry", "$defs": schema["$defs"]} if kind == "part" else schema


@cache
def _decoder(kind: str) -> SchemaDecoder:
    return SchemaDecoder(_entry_schema(kind))


def decode_document(document: Document, kind: str, faults: FaultList) -> Any | None:
    """The document's tree with quantities in SI, without what the schema refuses, which is recorded.

    None where nothing can be used. The caller judges by the faults whether the rest counts.
    """
    decoded, accepted = _decoder(kind).decode(document, faults)
    if not accepted:
        explain_refusal(document, _entry_schema(kind), faults)
    return decoded


def find_schema_folder() -> Path:
    """`schemas` inside the installed package, or the checkout's in an editable install."""
    package = Path(__file__).parent.parent
    installed = package / "schemas"
    if installed.is_dir():
        return installed
    checkout = package.parent
    if (checkout / "pyproject.toml").is_file() and (checkout / "schemas").is_dir():
        return checkout / "schemas"
    msg = "the schemas are missing from this installation of rigmint"
    raise FileNotFoundError(msg)
