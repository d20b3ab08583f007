"""The walker and jsonschema agree on what is taken; what is refused is explained in the format's own words."""

from __future__ import annotations

import random
from collections.abc import Iterator
from copy import deepcopy
from typing import Any

import pytest
from jsonschema import Draft202012Validator, ValidationError
from referencing import Registry

from rigmint.library.build_part import build_part
from rigmint.library.build_rig import assemble_rig
from rigmint.library.document import Document, Marks
from rigmint.library.faults import Fault, FaultList
from rigmint.library.schemas import decode_document
from rigmint.library.scope import Scope
from rigmint.library.yaml import parse_yaml
from tests.builders import list_faults, list_parts, make_library, make_rig, read_rig_text
from tests.library import whole_rig
from tests.schemas.complete_files import COMPLETE_FILES
from tests.schemas.schema_reading import load_schema, make_validator

Path = tuple[str | int, ...]

# What slips come down to: another kind of value, another unit, an empty one.
VALUES: list[Any] = [
    *(None, True, False, 0, 1, -3, 2.5, float("inf"), "", " ", "x", "on", "none", "never", "closure", "straight"),
    *("5 V", "-5 V", "0 V", "11 to 17 V", "45 cm", "20 AWG", "75 %", "1080p25", "2027-03-01", "2027-02-30", "a b"),
    *("house/x", "a.b", "a.b > c.d", "P1", "Größe", [], ["a"], [5], [None], [[]], {}, {"a": 1}, {"setting": "a"}),
]
SEEDS = 70


def parse_text(text: str) -> Any:
    """The tree of a text without faults."""
    faults = FaultList()
    document = parse_yaml(text, "x", faults)

    assert (document is not None, faults.found) == (True, [])
    return document.tree if document is not None else None


def list_paths(tree: Any, path: Path = ()) -> Iterator[Path]:
    """The path of every node below the root."""
    children: list[tuple[Any, Any]] = []
    if isinstance(tree, dict):
        children = list(tree.items())
    elif isinstance(tree, list):
        children = list(enumerate(tree))
    for key, value in children:
        yield (*path, key)
        yield from list_paths(value, (*path, key))


def mutate(tree: Any, seed: int) -> Any:
    """The tree with one to three slips: a value replaced, taken out, wrapped in a list, or a key misspelt."""
    rng = random.Random(seed)
    changed = deepcopy(tree)
    for _ in range(rng.choice([1, 1, 1, 2, 3])):
        paths = list(list_paths(changed))
        if not paths:
            break
        path = rng.choice(paths)
        parent = changed
        for key in path[:-1]:
            parent = parent[key]
        last = path[-1]
        slip = rng.choice(["replace", "replace", "replace", "remove", "wrap", "misspell"])
        if slip == "replace":
            parent[last] = deepcopy(rng.choice(VALUES))
        elif slip == "remove":
            del parent[last]
        elif slip == "wrap":
            parent[last] = [parent[last]]
        elif isinstance(parent, dict):
            parent[rng.choice([f"{last}x", str(last)[:-1], "Zz", "1", "a.b"])] = parent.pop(last)
    return changed


def list_entries() -> list[tuple[str, Any]]:
    """Kind and tree of everything that is decoded in the complete files: of a list of parts, each entry."""
    entries = []
    for kind, text in COMPLETE_FILES:
        tree = parse_text(text)
        is_list = kind == "part" and "parts" in tree
        entries += [(kind, entry) for entry in tree["parts"]] if is_list else [(kind, tree)]
    return entries


def entry_schema(kind: str) -> dict[str, Any]:
    """The schema of one decoded entry."""
    schema = load_schema(kind)
    return {"$ref": "#/$defs/part_entry", "$defs": schema["$defs"]} if kind == "part" else schema


def decode(tree: Any, kind: str) -> list[Fault]:
    """The faults of a tree."""
    faults = FaultList()
    decode_document(Document("x", tree, Marks()), kind, faults)
    return faults.found


@pytest.mark.parametrize(("kind", "tree"), list_entries())
def test_complete_files_have_no_fault(kind: str, tree: Any) -> None:
    assert decode(tree, kind) == []


@pytest.mark.parametrize(("kind", "tree"), list_entries())
def test_the_walker_takes_what_jsonschema_takes(kind: str, tree: Any) -> None:
    validator = make_validator(entry_schema(kind), entry_schema(kind))
    disagreements = []
    taken = 0
    for seed in range(SEEDS):
        slipped = mutate(tree, seed)
        is_valid = validator.is_valid(slipped)
        taken += is_valid
        if is_valid is bool(decode(slipped, kind)):
            disagreements.append((seed, is_valid))

    assert disagreements == []
    assert 0 < taken < SEEDS


def list_messages(error: ValidationError) -> Iterator[str]:
    """What jsonschema itself says, at every depth."""
    yield error.message
    for inner in error.context or ():
        yield from list_messages(inner)


@pytest.mark.parametrize(("kind", "tree"), list_entries())
def test_nothing_is_said_in_the_words_of_jsonschema(kind: str, tree: Any) -> None:
    validator = Draft202012Validator(entry_schema(kind), registry=Registry())
    foreign = []
    for seed in range(SEEDS // 2):
        slipped = mutate(tree, seed)
        said = [fault.says for fault in decode(slipped, kind)]
        messages = {message for error in validator.iter_errors(slipped) for message in list_messages(error)}
        foreign += [sentence for sentence in said if any(message in sentence for message in messages)]

    assert foreign == []


def test_a_slip_in_a_rig_gives_a_rig_or_faults_and_never_an_exception() -> None:
    library = make_library(whole_rig.PARTS)
    text = f"rigmint: 1\nrig: Saltmarsh\n{whole_rig.RIG}"
    document = parse_yaml(text, "x", FaultList())
    assert document is not None
    outcomes = set()
    for turn in range(300):
        slipped = Document("x", mutate(document.tree, turn), document.marks)
        read = assemble_rig(slipped, library, FaultList())
        outcomes.add((read.rig is not None, bool(read.faults)))

    assert outcomes == {(True, False), (False, True)}


def test_a_slip_in_a_part_gives_a_part_or_faults_and_never_an_exception() -> None:
    tokens = make_library().catalogue.tokens
    outcomes = set()
    for entry in parse_text(list_parts(whole_rig.PARTS))["parts"]:
        for seed in range(60):
            document = Document("x", mutate(entry, seed), Marks())
            faults = FaultList()
            decoded = decode_document(document, "part", faults)
            if decoded is not None:
                build_part(decoded, Scope(document, faults, tokens))
            outcomes.add((decoded is not None, bool(faults.found)))

    assert outcomes == {(True, False), (True, True), (False, True)}


def test_the_whole_rig_is_sound() -> None:
    assert len(make_rig(whole_rig.RIG, whole_rig.PARTS).items) == 11


LEAD_NEEDS = "a lead needs `from` and `to`, or `ends`"


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        ("[]", [("file:not-yaml", 3, 3)]),
        ("kit: [a]", [("file:wrong-kind", 3, 1)]),
        ("kit: {lens: 5}", [("file:wrong-kind", 3, 7)]),
        ("says: ''\nkit: {}", [("file:bad-value", 3, 1)]),
        ("stance: [upright]\nkit: {}", [("file:wrong-kind", 3, 1)]),
        ("needs: {runtime: 60 min}", [("file:missing-key", 1, 1)]),
        ("kit: {}\nair: [{says: house}]", [("file:missing-key", 4, 7)]),
        ("kit: {}\nalso: [{part: house/x, count: 0}]", [("file:unknown-name", 4, 9), ("file:bad-value", 4, 24)]),
        ("kit: {}\nlinks: {a: {between: [a.b]}}", [("file:bad-value", 4, 13)]),
        ("kit: {}\naccepted: [{code: a:b, at: x, why: y, by: z, until: 2027-02-30}]", [("file:bad-value", 4, 46)]),
        ("kit: {}\naccepted: [{code: a:b, at: x, why: y, by: z, until: soon}]", [("file:bad-value", 4, 46)]),
    ],
)
def test_code_and_place_of_a_refusal(text: str, faults: list[tuple[str, int, int]]) -> None:
    found = [(code, line, column) for code, line, column, _ in list_faults(read_rig_text(text))]

    assert found == faults


def test_all_faults_of_a_file_are_reported_at_once() -> None:
    found = list_faults(
        read_rig_text(
            """says: A rig with ten slips
stance: uprite
needs: {runtime: 60, flies: maybe}
kit:
  pack: {part: house/pack, rides: moon, colour: red}
  lamp: house/lamp
leads:
  P1: {from: pack.mount, to: lamp.dcin, length: 45}
  P2: {from: pack.mount, to: lamp.dc_in, lenght: 4 cm}
  P3: pack.mount lamp.dc_in
  P4: {part: house/lead}
setups: {Two: {}}
foo: 1
""",
            """
house/pack: {kind: battery, cells: {pack: {volts: 12 to 16.8 V}}, ports: {mount: {connector: d-tap, sex: socket}}}
house/lamp: {kind: light, rails: {main: {load: 5 W}}, ports: {dc_in: {connector: 0b-2, sex: socket}}}
""",
        )
    )
    listed = "`accepted`, `air`, `also`"

    assert [(code, line, column) for code, line, column, _ in found] == [
        ("file:bad-value", 4, 1),
        ("file:wrong-unit", 5, 9),
        ("file:wrong-kind", 5, 22),
        ("file:bad-value", 7, 28),
        ("file:unknown-key", 7, 41),
        ("file:unknown-name", 10, 26),
        ("file:wrong-unit", 10, 41),
        ("file:unknown-key", 11, 42),
        ("file:bad-value", 12, 3),
        ("file:missing-key", 13, 3),
        ("file:unknown-key", 14, 10),
        ("file:unknown-key", 15, 1),
    ]
    assert [says for _, _, _, says in found][:3] == [
        "stance: `uprite` is not one of `upright`, `underslung`, `side` (did you mean `upright`?)",
        "`60` has no unit: a duration is due, such as `60 min`",
        "needs.flies: `maybe` stands where true or false is due",
    ]
    assert found[5][3] == "`lamp.dcin`: did you mean `lamp.dc_in`?"
    assert found[7][3] == "leads.P2: `lenght` is no key here: did you mean `length`?"
    assert found[9][3] == f"leads.P4: {LEAD_NEEDS}"
    assert found[11][3].startswith(f"`foo` is no key here; the keys are {listed}")


@pytest.mark.parametrize(
    "lead", ["{}", "{from: a.b}", "{to: a.b, length: 4 cm}", "{from: a.b, to: c.d, ends: {a: a.b}}"]
)
def test_a_lead_without_ends_is_told_what_it_needs(lead: str) -> None:
    found = list_faults(read_rig_text(f"kit: {{}}\nleads: {{P1: {lead}}}"))

    assert found == [("file:missing-key", 4, 9, f"leads.P1: {LEAD_NEEDS}")]
