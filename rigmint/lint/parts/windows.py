"""Windows of volts that contradict each other, or what comes to the same rail."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from rigmint.lint.parts.hint import Hint, PartView
from rigmint.lint.parts.volts import find_copper, find_own_volts, find_rail_volts
from rigmint.lint.wording import say_amps, say_volts
from rigmint.rig.electric import Port, Role, Window
from rigmint.words import Grade

_CODE = "part:windows"


def say_window(window: Window) -> str:
    """`11.0 to 17.0 V`; one value where both ends are the same."""
    if window.low == window.high:
        return say_volts(window.low)
    return f"{window.low:.1f} to {window.high:.1f} V"


def check_works_inside_survives(view: PartView) -> Iterator[Hint]:
    """What a port works at, it must survive."""
    for name, port in view.part.ports.items():
        if port.works is None or port.survives is None or _holds(port.survives, port.works):
            continue
        yield Hint(
            _CODE,
            f"{name} works from {say_window(port.works)} and survives only {say_window(port.survives)}.",
            "Widen `survives`, or narrow `works`: one of them is of another device.",
            ("ports", name, "survives"),
            name,
        )


def check_survives_its_rail(view: PartView) -> Iterator[Hint]:
    """What the part itself may put on a port, the port must survive."""
    volts = find_rail_volts(view.part)
    for name, port in view.part.ports.items():
        own = volts.get(port.rail) if port.rail is not None else None
        is_told = port.works is not None and port.survives is not None and not _holds(port.survives, port.works)
        is_stated = port.survives is not None and "survives" not in port.assumed
        if own is None or port.survives is None or is_told or not is_stated or own.high <= port.survives.high:
            continue
        yield Hint(
            _CODE,
            f"Rail {port.rail} may stand at {say_volts(own.high)}, and {name} on it survives"
            f" {say_volts(port.survives.high)}.",
            f"Look at what feeds {port.rail}, or state `survives` of {name} as the data sheet does.",
            ("ports", name, "survives"),
            name,
        )


def check_outputs(view: PartView) -> Iterator[Hint]:
    """An output's window is met by the volts that its rail gets from the part itself."""
    volts = find_own_volts(view.part)
    for name, port in view.part.ports.items():
        own = volts.get(port.rail) if port.rail is not None else None
        works = port.works
        if own is None or works is None or port.role is not Role.OUT or "works" in port.assumed:
            continue
        if own.high < works.low or own.low > works.high:
            yield Hint(
                _CODE,
                f"{name} is said to give {say_window(works)}, and its rail {port.rail} stands at {say_window(own)}.",
                f"Look up what {name} gives, and what feeds {port.rail}.",
                ("ports", name, "works"),
                name,
            )


def check_inputs_agree(view: PartView) -> Iterator[Hint]:
    """Two inputs on one piece of copper must have volts at which both work."""
    inputs = list(_list_inputs(view))
    for (first, one), (second, other) in combinations(inputs, 2):
        if other.rail not in find_copper(view.part, one.rail or "") or one.works is None or other.works is None:
            continue
        if one.works.high < other.works.low or other.works.high < one.works.low:
            yield Hint(
                _CODE,
                f"{first} and {second} are one rail, and no voltage suits both: {first} works from"
                f" {say_window(one.works)}, {second} from {say_window(other.works)}.",
                "Give each a rail of its own, and write the bridge between them.",
                ("ports", second, "works"),
                second,
            )


def check_cells_suit_inputs(view: PartView) -> Iterator[Hint]:
    """A cell that sits on an input's rail must stay inside the input's window."""
    for port_name, port in _list_inputs(view):
        joined = find_copper(view.part, port.rail or "")
        for cell in view.part.cells.values():
            if cell.rail in joined and port.works is not None and not _holds(port.works, cell.volts):
                yield Hint(
                    _CODE,
                    f"Cell {cell.name} gives {say_window(cell.volts)} on the rail of {port_name}, which works from"
                    f" {say_window(port.works)}.",
                    "Give the cell a rail of its own behind a diode or a regulator, or look the volts up again.",
                    ("cells", cell.name, "volts"),
                    port_name,
                )


def check_connector_volts(view: PartView) -> Iterator[Hint]:
    """What the part puts on a port's contacts, its connector must be rated for."""
    volts = find_own_volts(view.part)
    for name, port in view.part.ports.items():
        limit = port.connector.volts
        given = [volts[rail].high for rail in port.feeds.values() if rail in volts]
        given += port.offers
        if limit is None or not given or max(given) <= limit:
            continue
        yield Hint(
            "part:over-rating",
            f"{name} gives {say_volts(max(given))}, and a {port.connector.name} is rated for {say_volts(limit)}.",
            "Look up the connector and the volts of its rail.",
            ("ports", name),
            name,
        )


def check_connector_amps(view: PartView) -> Iterator[Hint]:
    """What a port is said to carry, its contacts must bear together."""
    for name, port in view.part.ports.items():
        limit, stated = port.connector.amps, port.max_amps
        if limit is None or stated is None or "max" in port.assumed or not port.carries_power:
            continue
        contacts = min(len(port.feeds), len(port.minus_contacts))
        if stated > limit * contacts * (1 + 1e-9):
            many = f"{contacts} contacts each way" if contacts > 1 else "one contact each way"
            yield Hint(
                "part:over-rating",
                f"{name} is to carry {say_amps(stated)} over {many}, and a contact of a {port.connector.name} is rated"
                f" for {say_amps(limit)}.",
                f"Write `max: {limit * contacts:g} A` or less.",
                ("ports", name, "max"),
                name,
                Grade.THIN,
            )


def _list_inputs(view: PartView) -> Iterator[tuple[str, Port]]:
    """Ports that take power and state their window."""
    for name, port in view.part.ports.items():
        if (
            port.role is not Role.OUT
            and port.rail is not None
            and port.works is not None
            and "works" not in port.assumed
        ):
            yield name, port


def _holds(outer: Window, inner: Window) -> bool:
    return outer.low <= inner.low and inner.high <= outer.high
