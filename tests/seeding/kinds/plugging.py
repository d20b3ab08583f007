"""Mistakes of plugging: leads that are missing, elsewhere, turned round, of the wrong sort, or too many."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from tests.power.files import Tree
from tests.power.leads import read_entry
from tests.seeding.base import Base, Change
from tests.seeding.kinds.kind import Kind, Site, do_fit, list_plugged, replug, set_lead


def _drop(base: Base) -> Iterator[Site]:
    for label in base.leads:

        def change(tree: Tree, label: str = label) -> None:
            del tree["leads"][label]
            tree.get("marked", {}).pop(label, None)
            tree.get("metered", {}).pop(label, None)
            tree["tied"] = [place for place in tree.get("tied", []) if place != label]

        yield f"{label} is missing", change


def _list_moves(base: Base, *, taken: bool) -> Iterator[Site]:
    used = base.used()
    for label, (entry, reading) in base.leads.items():
        for end, place in reading.plugged.items():
            for other, port in base.ports.items():
                if other == place or (other in used) != taken or not do_fit(base, reading.ends[end], port):
                    continue
                moved = {**list_plugged(entry), end: other}
                yield f"{label}:{end} goes into {other}", set_lead(label, replug(entry, moved))


def _move_to_free(base: Base) -> Iterator[Site]:
    yield from _list_moves(base, taken=False)


def _move_to_taken(base: Base) -> Iterator[Site]:
    yield from _list_moves(base, taken=True)


def _cross_ends(base: Base) -> Iterator[Site]:
    """Two plugs of one kind change places."""
    for (one, first), (two, second) in combinations(base.leads.items(), 2):
        for end, place in first[1].plugged.items():
            for other_end, other_place in second[1].plugged.items():
                fits = do_fit(base, first[1].ends[end], base.ports[other_place])
                if fits and do_fit(base, second[1].ends[other_end], base.ports[place]):
                    changes = (
                        set_lead(one, replug(first[0], {**list_plugged(first[0]), end: other_place})),
                        set_lead(two, replug(second[0], {**list_plugged(second[0]), other_end: place})),
                    )
                    yield f"{one}:{end} and {two}:{other_end} change places", _do_all(*changes)


def _do_all(*changes: Change) -> Change:
    def change(tree: Tree) -> None:
        for one in changes:
            one(tree)

    return change


def _turn(base: Base) -> Iterator[Site]:
    for label, (entry, reading) in base.leads.items():
        for one, other in combinations(reading.plugged, 2):
            plugged = list_plugged(entry)
            fits = do_fit(base, reading.ends[one], base.ports[plugged[other]])
            if fits and do_fit(base, reading.ends[other], base.ports[plugged[one]]):
                turned = {**plugged, one: plugged[other], other: plugged[one]}
                yield f"{label} is turned round: {one} and {other}", set_lead(label, replug(entry, turned))


def _list_catalogue_leads(base: Base) -> Iterator[tuple[str, list[tuple[str, str]]]]:
    for part_id in sorted(base.shelf.parts):
        part = base.shelf.part(part_id)
        if part["kind"] == "lead" and set(part["ends"]) == {"a", "b"}:
            yield part_id, [(part["ends"][end]["connector"], part["ends"][end].get("sex", "")) for end in "ab"]


def _other_lead(base: Base) -> Iterator[Site]:
    """Another lead of the catalogue that goes into both ports."""
    leads = list(_list_catalogue_leads(base))
    for label, (entry, reading) in base.leads.items():
        if set(reading.plugged) != {"a", "b"}:
            continue
        ports = [base.ports[reading.plugged[end]] for end in "ab"]
        for part_id, ends in leads:
            if part_id == entry.get("part") or not all(
                do_fit(base, end, port) for end, port in zip(ends, ports, strict=True)
            ):
                continue
            kept = {key: value for key, value in entry.items() if key in ("from", "to", "ends", "in")}
            yield f"{label} is {part_id}", set_lead(label, {"part": part_id, **kept})


def _lead_that_does_not_fit(base: Base) -> Iterator[Site]:
    leads = [one for one in _list_catalogue_leads(base) if one[0].startswith("generic/lead-2pin")]
    leads += [
        one
        for one in _list_catalogue_leads(base)
        if one[0] in ("generic/lead-xlr4", "generic/lead-sdi", "generic/lead-hdmi")
    ]
    for label, (entry, reading) in base.leads.items():
        if set(reading.plugged) != {"a", "b"}:
            continue
        ports = [base.ports[reading.plugged[end]] for end in "ab"]
        for part_id, ends in leads:
            fits = [do_fit(base, end, port) for end, port in zip(ends, ports, strict=True)]
            if fits.count(False) == 1:
                kept = {key: value for key, value in entry.items() if key in ("from", "to", "ends", "in")}
                yield f"{label} is {part_id}, which does not fit", set_lead(label, {"part": part_id, **kept})


def _second_feed(base: Base) -> Iterator[Site]:
    """A lead too many, from a free output into a free port of something that has its feed already."""
    yield from _extra_leads(base, raw=False)


def _raw_feed(base: Base) -> Iterator[Site]:
    """A free tap on a universal connector."""
    yield from _extra_leads(base, raw=True)


def _extra_leads(base: Base, *, raw: bool) -> Iterator[Site]:
    used = base.used()
    free = {place: port for place, port in base.ports.items() if place not in used and port.has_power}
    outputs = {place: port for place, port in free.items() if not port.is_input or port.connector == "d-tap"}
    for part_id, (near, far) in _list_catalogue_leads(base):
        is_raw = far[0] in ("usb-c", "usb-micro") and near[0] == "d-tap"
        if is_raw != raw:
            continue
        for source, port in outputs.items():
            for target, other in free.items():
                if target.partition(".")[0] == source.partition(".")[0] or not do_fit(base, near, port):
                    continue
                if do_fit(base, far, other):
                    lead = {"part": part_id, "from": source, "to": target}
                    yield f"{part_id} from {source} into {target}", set_lead("Z9", lead)


def _second_battery(base: Base) -> Iterator[Site]:
    """A second pack, on a plate of its own, into an output of what the first one feeds."""
    used = base.used()
    for place, port in base.ports.items():
        item = place.partition(".")[0]
        if place in used or port.connector != "0b-2" or not port.has_power or port.sex != "socket":
            continue
        if base.parts[item]["kind"] not in ("breakout", "plate", "regulator"):
            continue

        def change(tree: Tree, place: str = place) -> None:
            tree["kit"] |= {"pack_z": "generic/battery-98wh-wedge", "plate_z": "generic/plate-wedge-two-tap"}
            tree.setdefault("docks", []).append("pack_z.mount > plate_z.battery")
            tree["leads"]["Z9"] = {"part": "generic/lead-tap-to-2pin", "from": "plate_z.tap_1", "to": place}

        yield f"a second battery feeds into {place}", change


def _loose(base: Base) -> Iterator[Site]:
    for label, (entry, reading) in base.leads.items():
        for end in reading.plugged:
            yield f"{label}:{end} hangs loose", set_lead(label, replug(entry, {**list_plugged(entry), end: "loose"}))


def _undock(base: Base) -> Iterator[Site]:
    for number, dock in enumerate(base.tree.get("docks", ())):
        first = read_entry(dock)[1]["a"]
        if not base.ports[first].has_power and not base.ports[first].speaks:
            continue

        def change(tree: Tree, number: int = number) -> None:
            del tree["docks"][number]

        yield f"{dock} is not docked", change


KINDS = (
    Kind("drop a lead", "electrical", _drop),
    Kind("move an end to a free port", "electrical", _move_to_free),
    Kind("move an end to a taken port", "plugging", _move_to_taken),
    Kind("two ends change places", "electrical", _cross_ends),
    Kind("turn a lead round", "electrical", _turn),
    Kind("another lead that fits", "electrical", _other_lead),
    Kind("a lead that does not fit", "plugging", _lead_that_does_not_fit),
    Kind("a second feed", "electrical", _second_feed),
    Kind("a raw tap on a universal connector", "electrical", _raw_feed),
    Kind("a second battery", "electrical", _second_battery),
    Kind("a loose end", "electrical", _loose),
    Kind("not docked", "electrical", _undock),
)
