"""Finds the port that a cell means: by its name, or as it is printed on the device."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from rigmint.rig.device import Radio
from rigmint.rig.electric import Port
from rigmint.start.table_kit import Kit
from rigmint.start.tokens import split_tokens


class PlaceNotFound(LookupError):
    """No place, or several; the message says which and what there is."""


def find_place(kit: Kit, text: str, taken: Collection[str]) -> str:
    """The place `item.port` or `item.radio`. Of several ports that are printed alike, the first that is not taken.
    Raises PlaceNotFound."""
    split = kit.split_place(text)
    if split is None:
        failed = kit.find_failed(text)
        msg = f"the item `{failed}` is not placed" if failed else f"`{text}` begins with no item of the kit"
        raise PlaceNotFound(msg)
    name, words = split
    part = kit.items[name].part
    if not words:
        msg = f"`{text}` names no port of {name}, which has {_list_ports([*part.ports, *part.radios])}"
        raise PlaceNotFound(msg)
    found = _match([*part.ports.values(), *part.radios.values()], "".join(words))
    if not found:
        msg = f"{name} ({part.id}) has no port `{' '.join(words)}`: it has {_list_ports([*part.ports, *part.radios])}"
        raise PlaceNotFound(msg)
    alike = {_describe(one) for one in found}
    if len(alike) > 1:
        msg = f"`{text}` may be {' or '.join(f'{name}.{one.name}' for one in found)}"
        raise PlaceNotFound(msg)
    free = [one for one in found if f"{name}.{one.name}" not in taken]
    return f"{name}.{(free or found)[0].name}"


def _match(ports: Iterable[Port | Radio], wanted: str) -> list[Port | Radio]:
    """Ports by name, else as printed, else those alone whose name or print begins so."""
    listed = list(ports)
    by_name = [port for port in listed if _squeeze(port.name) == wanted]
    by_print = [port for port in listed if _squeeze(_find_print(port)) == wanted]
    begun = [
        port for port in listed if any(_squeeze(text).startswith(wanted) for text in (port.name, _find_print(port)))
    ]
    return by_name or by_print or begun


def _find_print(port: Port | Radio) -> str:
    return port.says if isinstance(port, Port) and port.says else port.name


def _squeeze(text: str) -> str:
    return "".join(split_tokens(text))


def _describe(port: Port | Radio) -> tuple[object, ...]:
    """What makes two ports interchangeable: printed alike, with one connector wired alike."""
    if isinstance(port, Port):
        return (_squeeze(_find_print(port)), port.connector.id, port.sex, tuple(sorted(port.pins.items())), port.role)
    return (port.name,)


def _list_ports(names: list[str]) -> str:
    return ", ".join(names) if names else "none"
