"""Connectors and protocols from their decoded files."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from rigmint.library.document import Document, Path
from rigmint.library.faults import FaultList, suggest
from rigmint.library.schemas import decode_document
from rigmint.library.scope import as_tuple, freeze
from rigmint.rig.connector import Connector, Protocol

DEFAULT_CONTACT_OHMS = 0.01


def build_connectors(documents: Sequence[Document], faults: FaultList) -> dict[str, Connector]:
    """The connectors of one layer's files; contacts that a pin-out names must exist."""
    found: dict[str, Connector] = {}
    for document in documents:
        decoded = decode_document(document, "connectors", faults) or {}
        for name, body in decoded.get("connectors", {}).items():
            contacts = as_tuple(body.get("contacts"))
            _check_pinouts(name, contacts, body.get("usual", {}), document, faults)
            if name in found:
                _say_twice(document, ("connectors", name), name, faults)
            else:
                found[name] = _build_connector(name, contacts, body)
    return found


def build_protocols(documents: Sequence[Document], faults: FaultList) -> dict[str, Protocol]:
    """The protocols of one layer's files."""
    found: dict[str, Protocol] = {}
    for document in documents:
        decoded = decode_document(document, "protocols", faults) or {}
        for name, body in decoded.get("protocols", {}).items():
            if name in found:
                _say_twice(document, ("protocols", name), name, faults)
            else:
                found[name] = _build_protocol(name, body)
    return found


def _say_twice(document: Document, path: Path, name: str, faults: FaultList) -> None:
    faults.add(document.file, document.position(path), "file:two-parts", f"`{name}` is declared twice")


def _check_pinouts(
    name: str,
    contacts: tuple[str, ...],
    pinouts: Mapping[str, Mapping[str, str]],
    document: Document,
    faults: FaultList,
) -> None:
    for pinout, pins in pinouts.items():
        for contact in pins:
            if contact not in contacts:
                says = f"`{name}` has no contact `{contact}`{suggest(contact, contacts)}"
                position = document.position(("connectors", name, "usual", pinout, contact))
                faults.add(document.file, position, "file:unknown-name", says)


def _build_connector(name: str, contacts: tuple[str, ...], body: Mapping[str, Any]) -> Connector:
    return Connector(
        id=name,
        name=str(body.get("name", name)),
        contacts=contacts,
        latches={"yes": True, "no": False, True: True, False: False}.get(body.get("latches", "")),
        reversible=body.get("reversible") in (True, "yes"),
        forces=freeze(body.get("forces", {})),
        first=as_tuple(body.get("first")),
        amps=body.get("amps"),
        volts=body.get("volts"),
        contact_ohms=body.get("contact", DEFAULT_CONTACT_OHMS),
        usual=freeze({key: freeze(pins) for key, pins in body.get("usual", {}).items()}),
        almost=frozenset(as_tuple(body.get("almost"))),
        figures=body.get("figures"),
        assumed=frozenset(key for key in ("contact", "amps") if key not in body),
    )


def _build_protocol(name: str, body: Mapping[str, Any]) -> Protocol:
    return Protocol(
        id=name,
        name=str(body.get("name", name)),
        carries=frozenset(as_tuple(body.get("carries"))),
        wires=as_tuple(body.get("wires")),
        bit_rate=body.get("rate"),
        figures=body.get("figures"),
    )
