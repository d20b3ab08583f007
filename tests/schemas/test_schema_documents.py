"""Files against the schemas: whole ones are taken, each slip is refused where it was made and in plain words."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from copy import deepcopy
from typing import Any

import pytest
from jsonschema import Draft202012Validator, ValidationError
from jsonschema.protocols import Validator
from referencing import Registry

from tests.schemas.complete_files import (
    COMPLETE_FILES,
    CONNECTORS,
    DRIVER,
    HEAD_BATTERY_LENS_AND_LEADS,
    LIBRARY,
    PROTOCOLS,
    RIG,
)
from tests.schemas.schema_reading import KINDS, extend_validator, load_schema, make_validator, read_yaml, walk_nodes

BASES = {
    "rig": RIG,
    "part": DRIVER,
    "parts": HEAD_BATTERY_LENS_AND_LEADS,
    "library": LIBRARY,
    "connectors": CONNECTORS,
    "protocols": PROTOCOLS,
}
GONE = object()


@pytest.mark.parametrize(("kind", "text"), COMPLETE_FILES)
def test_complete_files_are_taken(kind: str, text: str) -> None:
    schema = load_schema(kind)
    refused = [
        (list(error.absolute_path), error.message)
        for outer in make_validator(schema, schema).iter_errors(read_yaml(text))
        for error in _with_inner(outer)
    ]

    assert refused == []


@pytest.mark.parametrize("kind", KINDS)
def test_complete_files_use_every_key(kind: str) -> None:
    schema = load_schema(kind)
    seen: set[tuple[str, str]] = set()

    def note_keys(
        validator: Validator, properties: Mapping[str, Any], instance: object, holder: Mapping[str, Any]
    ) -> Iterator[ValidationError]:
        if isinstance(instance, dict):
            seen.update((json.dumps(properties), key) for key in instance if key in properties)
        keyword = Draft202012Validator.VALIDATORS["properties"]
        yield from keyword(validator, properties, instance, holder) or ()

    noting = extend_validator("properties", note_keys)
    for file_kind, text in COMPLETE_FILES:
        if file_kind == kind:
            noting(schema, registry=Registry()).validate(read_yaml(text))
    unused = {
        (node.pointer, key)
        for node in walk_nodes(schema)
        for key in node.schema.get("properties", {})
        if (json.dumps(node.schema["properties"]), key) not in seen
    }

    assert unused == set()


# file, where, what is written there instead, the path that is blamed, words of the sentence
SLIPS: list[tuple[str, str, object, str, str]] = [
    ("rig", "rigmint", 2, "rigmint", "1 was expected"),
    ("rig", "rig", GONE, "", "a rig file needs `rigmint: 1`, `rig` (its title) and `kit`"),
    ("rig", "kit", [], "kit", "items are listed by name"),
    ("rig", "kit.Camera", "generic/lens-motor", "kit", "items are listed by name"),
    ("rig", "kit.lens", "lens-anamorphic", "kit.lens", "a part id is a folder and a name"),
    ("rig", "kit.lens", {"set": {"axis": "focus"}}, "kit.lens", "'part' is a required property"),
    ("rig", "kit.camera.asst", "CAM-08", "kit.camera", "'asst' was unexpected"),
    ("rig", "kit.camera.set.format", {"a": 1}, "kit.camera.set.format", "is not of type"),
    ("rig", "kit.mon_op.for", "director", "kit.mon_op.for", "is not one of"),
    ("rig", "kit.head.rides", "boat", "kit.head.rides", "is not one of"),
    ("rig", "kit.mon_ac.in", "two_up", "kit.mon_ac.in", "is not of type 'array'"),
    ("rig", "docks.0", "battery.mount - plate.battery", "docks.0", "a dock is written `item.port > item.port`"),
    ("rig", "leads.P2", "breakout.out_1 > loose", "leads.P2", "a loose end needs the mapping form"),
    ("rig", "leads.P1.to", GONE, "leads.P1", "a lead needs `from` and `to`, or `ends`"),
    ("rig", "leads.P1.ends", {"a": "loose"}, "leads.P1", "a lead needs `from` and `to`, or `ends`"),
    ("rig", "leads.P1.from", "plate", "leads.P1.from", "an end goes to `item.port`"),
    ("rig", "leads.P1.length", 40, "leads.P1.length", "40 is not of type 'string'"),
    ("rig", "leads.P1.length", "40 Wh", "leads.P1.length", "a length is due"),
    ("rig", "leads.P1.length", "-40 cm", "leads.P1.length", "a length above zero is due here"),
    ("rig", "leads.P1.length", "0.0 cm", "leads.P1.length", "a length above zero is due here"),
    ("rig", "leads.X1.lead.conductors.0.from", "1", "leads.X1.lead.conductors.0.from", "written `end.contact`"),
    ("rig", "links.picture.between", ["sender.radio"], "links.picture.between", "is too short"),
    ("rig", "fitted.motor_f", "lens.record", "fitted.motor_f", "a ring is written `item.focus`"),
    ("rig", "crew.first_ac", 4, "crew.first_ac", "an item, or a list of items"),
    ("rig", "needs.runtme", "60 min", "needs.runtme", "`needs` has `runtime`, `distance`"),
    ("rig", "needs.runtime", 60, "needs.runtime", "60 is not of type 'string'"),
    ("rig", "needs.flies", "no", "needs.flies", "is not of type 'boolean'"),
    ("rig", "settings.dial", "none", "settings", "settings are listed as `item.setting` and value"),
    ("rig", "setups.solo.who.focus", [], "setups.solo.who.focus", "should be non-empty"),
    ("rig", "setups.solo.who.fokus", "operator", "setups.solo.who", "'fokus' does not match"),
    ("rig", "setups.solo.on", "boat", "setups.solo.on", "is not one of"),
    ("rig", "setups.solo.unplugged", ["2D"], "setups.solo.unplugged.0", "a lead's label is letters"),
    ("rig", "metered.P2.on", "2 May", "metered.P2.on", "a date is written year-month-day"),
    ("rig", "also.0.count", 0, "also.0.count", "less than the minimum"),
    ("rig", "requires.0.set", GONE, "requires.0", "a requirement needs `why`, and `set`, `alike` or `unlike`"),
    ("rig", "requires.0.set", {"flip": "on"}, "requires.0.set", "a setting is written `item.setting`"),
    ("rig", "requires.1.alike", [["camera.rate"]], "requires.1.alike.0", "is too short"),
    ("rig", "requires.0.grade", "bad", "requires.0.grade", "is not one of"),
    ("rig", "accepted.0.why", " ", "accepted.0.why", "this text is empty"),
    ("rig", "accepted.0.up_to", "45 minutes", "accepted.0.up_to", "`minutes`"),
    ("rig", "notes", [], "notes", "this text is empty"),
    ("rig", "house", "C4", "house", "is not of type 'object'"),
    ("part", "id", "driver", "id", "a part id is a folder and a name"),
    ("part", "kind", "gimbal", "kind", "is not one of"),
    ("part", "ports.dc_in.connector", GONE, "ports.dc_in", "'connector' is a required property"),
    ("part", "ports.dc_in.works", "12 V", "ports.dc_in.works", "one value where a range is due"),
    ("part", "ports.dc_in.works", "17 to 11 V", "ports.dc_in.works", "upper end first"),
    ("part", "ports.dc_in.pins", ["minus", "plus"], "ports.dc_in.pins", "`pins` is contact: plus, minus"),
    ("part", "ports.dc_in.sex", "both", "ports.dc_in.sex", "is not one of"),
    ("part", "ports.head.levels.trigger.gives", "open", "ports.head.levels.trigger.gives", "a level is `closure`"),
    ("part", "rails.main.load", 3, "rails.main.load", "3 is not of type 'string'"),
    ("part", "rails.main.load", "3 V", "rails.main.load", "is a voltage"),
    ("part", "bridges.1.by", "wish", "bridges.1.by", "is not one of"),
    ("part", "bridges.0.efficiency", "120 %", "bridges.0.efficiency", "above 0 % and up to 100 %"),
    ("part", "bridges.0.efficiency", "0 %", "bridges.0.efficiency", "above 0 % and up to 100 %"),
    ("part", "bridges.3.resistance", "0 ohm", "bridges.3.resistance", "a resistance above zero is due here"),
    ("part", "controls.knob.axis", 3, "controls.knob.axis", "an axis, a list of axes or `{setting: NAME}`"),
    ("part", "controls.knob.turn", "300 %", "controls.knob.turn", "an angle is due here"),
    ("part", "moves.shaft.steps", 0.5, "moves.shaft.steps", "is not of type 'integer'"),
    ("part", "makes.sensor.picture", "1080x25", "makes.sensor.picture", "a picture is `true`, a format such as"),
    ("part", "makes.crystal.timecode", False, "makes.crystal.timecode", "is `true`, or `{setting: NAME}`"),
    ("part", "needs.0.next_to", GONE, "needs.0", "a need of a part has `next_to` or `firmware`"),
    ("part", "needs.1.firmware.motor_driver", "2", "needs.1.firmware.motor_driver", "a comparison and dotted numbers"),
    ("part", "requires.1.unlike", [["slot"]], "requires.1.unlike.0", "is too short"),
    ("part", "ports.head.offers", [], "ports.head.offers", "should be non-empty"),
    ("part", "speeds.1", 0, "speeds.1", "less than or equal to the minimum"),
    ("parts", "title", "Heads", "", "one part with `rigmint_part: 1` and `id`, or a list of whole parts"),
    ("parts", "parts.0.follow.modes.custom.pan", "yes", "parts.0.follow.modes.custom.pan", "`on`, `off` or `{setting"),
    ("parts", "parts.0.joints.yaw", {}, "parts.0.joints", "'yaw' was unexpected"),
    ("parts", "parts.1.cells.pack.volts", "16.8", "parts.1.cells.pack.volts", "`volts` is a range from empty to full"),
    ("parts", "parts.1.cells.pack.chemistry", "li-ion", "parts.1.cells.pack.chemistry", "number of cells in series"),
    ("parts", "parts.1.cells.pack.curve.1.5", "4 V", "parts.1.cells.pack.curve", "`curve` lists fractions"),
    ("parts", "parts.2.rings.focus.torque", "5 Wh", "parts.2.rings.focus.torque", "is an energy"),
    ("parts", "parts.3.drive.speed", "900 Hz", "parts.3.drive.speed", "is a frequency"),
    ("parts", "parts.4.carries", {"run-closure": ["a"]}, "parts.4.carries.run-closure", "is too short"),
    ("parts", "parts.5.conductors", "crossed", "parts.5.conductors", "`conductors` is `straight` or a list"),
    ("library", "rules.short", "off", "rules", "rules are listed by code"),
    ("library", "rules.windup:lead", "on", "rules.windup:lead", "is not valid under any of the given schemas"),
    ("library", "power.change_at", "0.15", "power.change_at", "a share lies between 0 % and 100 %"),
    ("library", "fail_on", "error", "fail_on", "is not one of"),
    ("connectors", "connectors.0b-2.latches", "maybe", "connectors.0b-2.latches", "is not one of"),
    ("connectors", "connectors.0b-2.contacts.0", "pin 1", "connectors.0b-2.contacts.0", "has no spaces"),
    ("connectors", "connectors.0b-2.name", GONE, "connectors.0b-2", "'name' is a required property"),
    ("connectors", "protocols", {}, "", "'protocols' was unexpected"),
    ("protocols", "protocols.sdi-3g.rate", "2.97 GHz", "protocols.sdi-3g.rate", "is a frequency"),
    ("protocols", "protocols.sdi-3g.carries", "picture", "protocols.sdi-3g.carries", "is not of type 'array'"),
]


@pytest.mark.parametrize(("file", "where", "written", "blamed", "words"), SLIPS)
def test_a_slip_is_refused_where_it_was_made(file: str, where: str, written: object, blamed: str, words: str) -> None:
    kind = "part" if file == "parts" else file
    tree = read_yaml(BASES[file])
    path = _split_path(tree, where)
    if kind == "rig":
        del tree["like"]  # with it, `kit` may be missing
    _write(tree, path, written)
    schema = load_schema(kind)
    sentences = {
        (".".join(map(str, error.absolute_path)), sentence)
        for outer in make_validator(schema, schema).iter_errors(tree)
        for error in _with_inner(outer)
        for sentence in (error.message, _sentence_of(error))
    }

    assert [words for place, sentence in sentences if place == blamed and words in sentence] != []


def _split_path(tree: Any, where: str) -> list[str | int]:
    """The steps of a dotted path; keys may hold dots themselves, so the longest key that exists is taken."""
    path: list[str | int] = []
    rest = where
    while rest:
        if isinstance(tree, list):
            step, _, rest = rest.partition(".")
            path.append(int(step))
            tree = tree[int(step)]
            continue
        known = [key for key in tree if rest == key or rest.startswith(f"{key}.")] if isinstance(tree, dict) else []
        key = max(known, key=len, default=rest)
        path.append(key)
        tree = tree.get(key) if isinstance(tree, dict) else None
        rest = rest.removeprefix(key).removeprefix(".")
    return path


def _write(tree: Any, path: list[str | int], written: object) -> None:
    *steps, last = path
    for step in steps:
        tree = tree[step]
    if written is GONE:
        del tree[last]
    else:
        tree[last] = deepcopy(written)


def _with_inner(error: ValidationError) -> Iterator[ValidationError]:
    """The error and those of the branches that it tried, at every depth."""
    yield error
    for inner in error.context or ():
        yield from _with_inner(inner)


def _sentence_of(error: ValidationError) -> str:
    return str(error.schema.get("x-says", "")) if isinstance(error.schema, Mapping) else ""
