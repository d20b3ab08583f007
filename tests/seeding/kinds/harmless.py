"""Changes that an old hand would shrug at: none of them may be told at `fight` or worse."""

from __future__ import annotations

from collections.abc import Iterator

from tests.power.amounts import read_amount
from tests.power.files import Tree
from tests.seeding.base import Base
from tests.seeding.kinds.kind import Kind, Site, find_body, rewire, set_item


def _shorten(base: Base) -> Iterator[Site]:
    for label in base.leads:
        body = find_body(base, label)
        metres = read_amount(base.leads[label][0].get("length", body.get("length", "50 cm")))
        for share in (0.8, 0.95):
            yield (
                f"{label} is a little shorter",
                rewire(base, label, body["conductors"], length=f"{metres * share:.3f} m"),
            )


def _thicken(base: Base) -> Iterator[Site]:
    for label in base.leads:
        wires = find_body(base, label)["conductors"]
        if all("gauge" in wire and read_amount(wire["gauge"]) > 16 for wire in wires):
            thick = [{**wire, "gauge": f"{read_amount(wire['gauge']) - 2:.0f} AWG"} for wire in wires]
            yield f"{label} is thicker", rewire(base, label, thick)


def _spare(_: Base) -> Iterator[Site]:
    for part_id in (
        "generic/lens-prime-compact",
        "generic/monitor-5in-loop",
        "generic/battery-98wh-wedge",
        "generic/hand-unit-one-axis",
    ):

        def change(tree: Tree, part_id: str = part_id) -> None:
            tree.setdefault("also", []).append({"part": part_id, "count": "1"})

        yield f"{part_id} lies in the case", change


def _reorder(base: Base) -> Iterator[Site]:
    for key in ("kit", "leads", "links", "setups"):
        if len(base.tree.get(key) or {}) > 1:

            def change(tree: Tree, key: str = key) -> None:
                tree[key] = dict(reversed(list(tree[key].items())))

            yield f"{key} is written the other way round", change


def _nearer(base: Base) -> Iterator[Site]:
    for link, body in base.tree.get("links", {}).items():
        if "distance" in body:

            def change(tree: Tree, link: str = link, metres: float = read_amount(body["distance"]) * 0.7) -> None:
                tree["links"][link]["distance"] = f"{metres:.0f} m"

            yield f"{link} is shorter", change


def _rename_lead(base: Base) -> Iterator[Site]:
    for label in base.leads:

        def change(tree: Tree, label: str = label) -> None:
            tree["leads"] = {f"{one}-Z" if one == label else one: body for one, body in tree["leads"].items()}
            for key in ("marked", "metered"):
                if label in tree.get(key, {}):
                    tree[key] = {f"{one}-Z" if one == label else one: body for one, body in tree[key].items()}
            tree["tied"] = [f"{label}-Z" if one == label else one for one in tree.get("tied", [])]

        yield f"{label} bears another label", change


def _asset(base: Base) -> Iterator[Site]:
    for item in base.parts:
        yield f"{item} bears another number", set_item(item, asset="KH-9009")


def _bond(base: Base) -> Iterator[Site]:
    for item in base.parts:
        if "bond" not in base.entry(item):
            yield f"{item} has a bond too", set_item(item, bond="true")


KINDS = (
    Kind("a lead a little shorter", "harmless", _shorten),
    Kind("a lead a little thicker", "harmless", _thicken),
    Kind("a spare in the case", "harmless", _spare),
    Kind("another order in the file", "harmless", _reorder),
    Kind("a shorter link", "harmless", _nearer),
    Kind("another label", "harmless", _rename_lead),
    Kind("another number", "harmless", _asset),
    Kind("a bond more", "harmless", _bond),
)
