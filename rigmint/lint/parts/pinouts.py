"""Pin-outs: stated where there is power, like one of the connector's usual ones, with a wire for what is spoken."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from rigmint.graph.signals import USB_PD, contacts_of
from rigmint.lint.parts.hint import Hint, PartView
from rigmint.lint.wording import say_list
from rigmint.rig.electric import MINUS, PLUS, Port

_POWER_KEYS = ("rail", "role", "works", "survives")


def check_stated(view: PartView) -> Iterator[Hint]:
    """A power port states its pin-out, plus and minus."""
    for name, port in view.part.ports.items():
        is_for_power = any(view.states("ports", name, key) for key in _POWER_KEYS)
        if not view.states("ports", name, "pins"):
            if is_for_power and port.connector.contacts:
                yield _say_unstated(name, port)
            continue
        has_minus = bool(port.minus_contacts)
        if is_for_power and not port.feeds:
            yield _say_half(name, "it has a rail, a role or a window, and no contact of it is plus")
        elif port.feeds and not has_minus:
            yield _say_half(name, f"{say_list(list(port.feeds))} is plus, and no contact is minus")


def _say_unstated(name: str, port: Port) -> Hint:
    usual = port.connector.usual
    first = next(iter(usual), None)
    assumed = f"`{first}` is assumed" if first is not None else "nothing is known of it"
    others = (
        f"; a {port.connector.name} is also met as {say_list(list(usual)[1:], joint='or')}" if len(usual) > 1 else ""
    )
    return Hint(
        "part:no-pin-out",
        f"{name} carries power and does not state its pins: {assumed}{others}.",
        f"Write `pins: {first}`, or contact by contact." if first is not None else "Write `pins:` contact by contact.",
        ("ports", name),
        name,
    )


def _say_half(name: str, why: str) -> Hint:
    return Hint(
        "part:no-pin-out",
        f"The pin-out of {name} is half of one: {why}.",
        "Write which contact is plus and which is minus.",
        ("ports", name, "pins"),
        name,
    )


def check_usual(view: PartView) -> Iterator[Hint]:
    """Plus and minus sit where one of the connector's usual pin-outs has them."""
    for name, port in view.part.ports.items():
        usual = [pins for pins in port.connector.usual.values() if PLUS in _list_sides(pins)]
        if not port.carries_power or not usual or not isinstance(view.find("ports", name, "pins"), dict):
            continue
        own = dict.fromkeys(port.feeds, PLUS) | dict.fromkeys(port.minus_contacts, MINUS)
        if any(_agrees(own, pins) for pins in usual):
            continue
        plus, minus = say_list(list(port.feeds)), say_list(list(port.minus_contacts))
        yield Hint(
            "part:pin-out",
            f"{name} has plus on {plus} and minus on {minus}, unlike every usual pin-out of a {port.connector.name}"
            f" ({say_list(list(port.connector.usual), joint='or')}).",
            "Meter it; if it is so, add the pin-out under `usual:` of the connector, and give the port a `tag`.",
            ("ports", name, "pins"),
            name,
        )


def _agrees(own: Mapping[str, str], usual: Mapping[str, str]) -> bool:
    """Whether each contact of a pin-out is on the same side in a usual one."""
    sides = {contact: find_side(role) for contact, role in usual.items()}
    return all(sides.get(contact, _free(contact, side)) == side for contact, side in own.items())


def _free(contact: str, side: str) -> str:
    """A screen that a usual pin-out does not name is ground."""
    return MINUS if contact == "shield" else f"not {side}"


def _list_sides(pins: Mapping[str, str]) -> set[str]:
    return {find_side(role) for role in pins.values()}


def find_side(role: str) -> str:
    """`plus`, `minus` or a signal. Usual pin-outs of several supplies call them plus_12v and the like."""
    return PLUS if role.startswith(PLUS) else role


def check_wires(view: PartView) -> Iterator[Hint]:
    """A port has a contact for each wire of what it speaks."""
    for name, port in view.part.ports.items():
        for spoken in port.speaks:
            protocol = view.protocol(spoken)
            missing = [wire for wire in protocol.wires if not contacts_of(port, wire)]
            if missing and port.pins:
                yield Hint(
                    "part:no-wire",
                    f"{name} speaks {protocol.name}, which needs {say_list([f'`{wire}`' for wire in missing])}, and no"
                    " contact of it is called so.",
                    f"Write under `pins:` which contact is {say_list(missing)}, or take {spoken} out of `speaks:`.",
                    ("ports", name, "speaks"),
                    name,
                )


def check_usb_power(view: PartView) -> Iterator[Hint]:
    """What offers or wants more than 5 V by USB can say so."""
    for name, port in view.part.ports.items():
        if (port.offers or port.wants is not None) and USB_PD not in port.speaks:
            verb = "offers" if port.offers else "wants"
            yield Hint(
                "part:usb-power",
                f"{name} {verb} power delivery and does not speak {USB_PD}: it stays at 5 V.",
                f"Write `speaks: [{USB_PD}]` and `pins: power-delivery`.",
                ("ports", name, verb),
                name,
            )
        elif USB_PD in port.speaks and not port.offers and port.wants is None:
            yield Hint(
                "part:usb-power",
                f"{name} speaks {USB_PD} and neither offers nor wants any volts.",
                "Write `offers: [5 V, 9 V, 15 V]` of a source, `wants: 15 V` of what takes it.",
                ("ports", name, "speaks"),
                name,
            )
        elif port.wants is not None and port.works is not None and not port.works.holds(port.wants):
            yield Hint(
                "part:usb-power",
                f"{name} asks for {port.wants:.1f} V and works from {port.works.low:.1f} to {port.works.high:.1f} V.",
                "Write `wants` inside `works`.",
                ("ports", name, "wants"),
                name,
            )
