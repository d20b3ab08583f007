"""What was said of a part's ports: `dc_in=0b-2,in,11-17 V`, read and held against the connectors that there are."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from rigmint.library.faults import suggest
from rigmint.rig.connector import Connector
from rigmint.rig.quantity import QuantityError, parse_quantity, parse_range
from rigmint.start.answers import Refusal

_NAME = re.compile(r"[a-z][a-z0-9_]*")
_RANGE = re.compile(r"\s*(\d+(?:\.\d+)?)\s*V?\s*(?:-|–|\bto\b|\.\.)\s*(\d+(?:\.\d+)?)\s*V?\s*", re.IGNORECASE)
_SINGLE = re.compile(r"\s*(\d+(?:\.\d+)?)\s*V\s*", re.IGNORECASE)
_SEXES = {"plug": "plug", "male": "plug", "socket": "socket", "female": "socket", "same": "same"}
_ROLES = ("in", "out", "either")


@dataclass(frozen=True, slots=True)
class StartedPort:
    """A port of a part that is begun. `volts`: the window that it takes, or what it gives, as written there."""

    name: str
    connector: Connector
    sex: str
    role: str | None
    volts: str | None
    pins: str | None
    """A pin-out of the connector, by name; None for a mechanical one, or where none is usual."""
    is_pinned: bool
    """Whether that pin-out was said; else it is the commonest."""

    @property
    def has_power(self) -> bool:
        """Whether it was said to take or give power."""
        return self.role is not None

    @property
    def other_pins(self) -> tuple[str, ...]:
        """Pin-outs that it might have as well."""
        usual = self.connector.usual
        return tuple(name for name in usual if name != self.pins and _suits(self.connector, name, self.role))

    @property
    def is_single(self) -> bool:
        """Whether one voltage was said, not a window."""
        return self.volts is not None and " to " not in self.volts


def read_port(text: str, connectors: Mapping[str, Connector], default_sex: str) -> StartedPort:
    """A port from `NAME=CONNECTOR[,plug|socket|same][,in|out|either][,11-17 V][,PIN-OUT]`. Raises Refusal."""
    name, equals, rest = text.partition("=")
    words = [word.strip() for word in rest.split(",") if word.strip()]
    if not equals or not words:
        msg = f"`{text}`: a port is written NAME=CONNECTOR, and more after commas, such as `dc_in=0b-2,in,11-17 V`"
        raise Refusal(msg)
    if not _NAME.fullmatch(name.strip()):
        msg = f"`{name.strip()}` is no name for a port: small letters, digits and `_`, a letter first, such as `dc_in`"
        raise Refusal(msg)
    connector = connectors.get(words[0])
    if connector is None:
        near = suggest(words[0], connectors) or "; `rigmint parts WORD` shows parts with theirs"
        msg = f"there is no connector `{words[0]}`{near}"
        raise Refusal(msg)
    said: dict[str, str] = {}
    for word in words[1:]:
        key, value = _read_word(word, connector)
        if key in said:
            msg = f"`{text}` says twice what its {key} is"
            raise Refusal(msg)
        said[key] = value
    return _build(name.strip(), connector, said, default_sex)


def _read_word(word: str, connector: Connector) -> tuple[str, str]:
    folded = word.casefold()
    if folded in _SEXES:
        return "sex", _SEXES[folded]
    if folded in _ROLES:
        return "role", folded
    if folded in connector.usual:
        return "pin-out", folded
    if match := _RANGE.fullmatch(word):
        return "voltage", _read_volts(f"{match[1]} to {match[2]} V")
    if match := _SINGLE.fullmatch(word):
        return "voltage", _read_volts(f"{match[1]} V")
    usual = f", a pin-out ({', '.join(connector.usual)})" if connector.usual else ""
    msg = f"`{word}` is no sex (plug, socket, same), no role (in, out, either), no window such as `11-17 V`{usual}"
    raise Refusal(msg)


def _read_volts(text: str) -> str:
    try:
        if " to " in text:
            parse_range(text, "voltage")
        else:
            parse_quantity(text, "voltage")
    except QuantityError as error:
        raise Refusal(str(error)) from error
    return text


def _build(name: str, connector: Connector, said: Mapping[str, str], default_sex: str) -> StartedPort:
    if connector.is_mechanical and (said.get("role") or said.get("voltage")):
        msg = f"{connector.id} is a mount and carries no power: leave out `{said.get('role') or said['voltage']}`"
        raise Refusal(msg)
    role = said.get("role") or ("in" if said.get("voltage") else None)
    if role == "in" and said.get("voltage") and " to " not in said["voltage"]:
        msg = f"{name} is fed here, so a window is due and not one value: such as `11-17 V`"
        raise Refusal(msg)
    pins = said.get("pin-out") or next((usual for usual in connector.usual if _suits(connector, usual, role)), None)
    return StartedPort(
        name, connector, said.get("sex", default_sex), role, said.get("voltage"), pins, "pin-out" in said
    )


def _suits(connector: Connector, usual: str, role: str | None) -> bool:
    """Whether a pin-out has a plus where the port has power."""
    return role is None or "plus" in connector.usual[usual].values()
