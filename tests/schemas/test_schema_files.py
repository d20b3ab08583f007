"""The schema files themselves: valid, closed, explained, and written in the keywords that the reader knows."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from itertools import combinations
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from rigmint.rig.quantity import UNITS
from rigmint.words import AXES, CODE_PATTERN, FLOWS, Grade
from tests.schemas.schema_reading import (
    CHOICES,
    KINDS,
    SchemaNode,
    load_schema,
    make_validator,
    resolve_ref,
    walk_nodes,
)

KEYWORDS = {
    *("$schema", "$id", "$defs", "$ref", "title", "description", "examples", "default", "type", "const", "enum"),
    *("properties", "patternProperties", "additionalProperties", "propertyNames", "required", "items", "minItems"),
    *("pattern", "minimum", "maximum", "exclusiveMinimum", "oneOf", "anyOf"),
    *("x-quantity", "x-range", "x-says", "x-text", "x-name"),
}
ANNOTATIONS = {"title", "description", "examples", "default"}
SPOKEN_FOR = {"required", "oneOf", "anyOf", "pattern", "additionalProperties"}
SCALARS = ["string", "number", "boolean"]
EXPLAINED = ("properties", "patternProperties", "additionalProperties")

every_kind = pytest.mark.parametrize("kind", KINDS)


def _nodes(kind: str) -> Iterator[SchemaNode]:
    return walk_nodes(load_schema(kind))


@every_kind
def test_meets_the_meta_schema(kind: str) -> None:
    Draft202012Validator.check_schema(load_schema(kind))


@every_kind
def test_is_named_by_kind_and_format_version(kind: str) -> None:
    schema = load_schema(kind)

    assert schema["$id"] == f"https://rigmint.example/schemas/1/{kind}.schema.json"
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"


@every_kind
def test_uses_only_keywords_that_the_reader_knows(kind: str) -> None:
    unknown = {(node.pointer, word) for node in _nodes(kind) for word in node.schema.keys() - KEYWORDS}

    assert unknown == set()


@every_kind
def test_every_key_is_explained(kind: str) -> None:
    bare = {
        (node.pointer, word)
        for node in _nodes(kind)
        if node.holder in EXPLAINED
        for word in ("title", "description", "examples")
        if not node.schema.get(word)
    }

    assert bare == set()


@every_kind
def test_examples_meet_their_own_schema(kind: str) -> None:
    root = load_schema(kind)
    refused = [
        (node.pointer, example, error.message)
        for node in walk_nodes(root)
        for example in node.schema.get("examples", [])
        for error in make_validator(node.schema, root).iter_errors(example)
    ]

    assert refused == []


@every_kind
def test_defaults_meet_their_own_schema(kind: str) -> None:
    root = load_schema(kind)
    refused = [
        (node.pointer, error.message)
        for node in walk_nodes(root)
        if "default" in node.schema
        for error in make_validator(node.schema, root).iter_errors(node.schema["default"])
    ]

    assert refused == []


@every_kind
def test_references_stay_in_the_file_and_every_definition_is_used(kind: str) -> None:
    root = load_schema(kind)
    targets = {str(node.schema["$ref"]) for node in walk_nodes(root) if "$ref" in node.schema}

    assert targets == {f"#/$defs/{name}" for name in root["$defs"]}


@every_kind
def test_only_annotations_stand_beside_a_reference(kind: str) -> None:
    others = {
        (node.pointer, word)
        for node in _nodes(kind)
        if "$ref" in node.schema
        for word in node.schema.keys() - ANNOTATIONS - {"$ref"}
    }

    assert others == set()


@every_kind
def test_every_mapping_is_closed_but_the_house_keys(kind: str) -> None:
    open_ones = {
        node.pointer
        for node in _nodes(kind)
        if node.schema.get("type") == "object"
        and node.schema.get("additionalProperties", True) is True
        and not (node.pointer.endswith("/properties/house") and node.schema["title"] == "House keys")
    }

    assert open_ones == set()


@every_kind
def test_no_pattern_of_keys_catches_a_named_key(kind: str) -> None:
    caught = {
        (node.pointer, key)
        for node in _nodes(kind)
        for pattern in node.schema.get("patternProperties", {})
        for key in node.schema.get("properties", {})
        if re.search(pattern, key)
    }

    assert caught == set()


@every_kind
def test_required_keys_are_declared(kind: str) -> None:
    undeclared = {
        (node.pointer, key)
        for node in _nodes(kind)
        for holder in (node.schema, *(b for word in CHOICES for b in node.schema.get(word, []) if _is_key_group(b)))
        for key in holder.get("required", [])
        if key not in node.schema.get("properties", {}) and not _is_key_group(node.schema)
    }

    assert undeclared == set()


@every_kind
def test_annotations_for_the_reader_are_well_formed(kind: str) -> None:
    wrong = {(node.pointer, problem) for node in _nodes(kind) for problem in _find_annotation_faults(node.schema)}

    assert wrong == set()


def _find_annotation_faults(schema: Mapping[str, Any]) -> Iterator[str]:
    if "x-quantity" in schema:
        kinds = schema["x-quantity"]
        if schema.get("type") != "string":
            yield "x-quantity on no string"
        if not set([kinds] if isinstance(kinds, str) else kinds) <= UNITS.keys():
            yield "x-quantity of no known kind"
    if "x-range" in schema and (schema["x-range"] is not True or not isinstance(schema.get("x-quantity"), str)):
        yield "x-range without one x-quantity"
    if "x-text" in schema and (schema["x-text"] is not True or schema.get("type") != SCALARS):
        yield "x-text on no scalar"
    if "x-says" in schema and not (schema.keys() & SPOKEN_FOR and str(schema["x-says"]).strip()):
        yield "x-says for nothing"
    if "x-name" in schema and not re.fullmatch("[a-z]+", str(schema["x-name"])):
        yield "x-name is no word"
    if not schema.get("propertyNames", {}).keys() <= {"pattern", "x-says"}:
        yield "propertyNames with more than a pattern"


@every_kind
def test_every_choice_of_keys_and_every_pattern_has_a_sentence(kind: str) -> None:
    silent = {
        node.pointer
        for node in _nodes(kind)
        if "x-says" not in node.schema
        and ("pattern" in node.schema or any(_is_key_group(b) for word in CHOICES for b in node.schema.get(word, [])))
    }

    assert silent == set()


@every_kind
def test_branches_of_a_choice_can_be_told_apart(kind: str) -> None:
    root = load_schema(kind)
    alike = {
        (node.pointer, first, second)
        for node in walk_nodes(root)
        for word in CHOICES
        for (first, a), (second, b) in combinations(enumerate(node.schema.get(word, [])), 2)
        if not _can_be_told_apart(resolve_ref(a, root), resolve_ref(b, root))
    }

    assert alike == set()


def _can_be_told_apart(first: Mapping[str, Any], second: Mapping[str, Any]) -> bool:
    if _is_key_group(first) and _is_key_group(second):
        return first != second
    shared = _types_of(first) & _types_of(second)
    if shared == {"string"}:
        return _text_form(first) != _text_form(second) and None not in (_text_form(first), _text_form(second))
    if shared == {"object"}:
        return _demands_a_key_unknown_to(first, second) and _demands_a_key_unknown_to(second, first)
    return not shared


def _is_key_group(schema: Mapping[str, Any]) -> bool:
    """A branch that only asks for keys of the mapping beside it."""
    return schema.keys() == {"required"}


def _types_of(schema: Mapping[str, Any]) -> set[str]:
    kinds = schema["type"]
    return {kinds} if isinstance(kinds, str) else set(kinds)


def _text_form(schema: Mapping[str, Any]) -> str | None:
    """What tells one text from another: listed words, a kind of quantity, a range."""
    if "const" in schema or "enum" in schema:
        return "words"
    if "x-quantity" in schema:
        return f"{schema['x-quantity']} {schema.get('x-range', False)}"
    return None


def _demands_a_key_unknown_to(one: Mapping[str, Any], other: Mapping[str, Any]) -> bool:
    return bool(set(one.get("required", [])) - other.get("properties", {}).keys())


@pytest.mark.parametrize(("first", "second"), list(combinations(KINDS, 2)))
def test_shared_definitions_are_equal(first: str, second: str) -> None:
    one, other = load_schema(first)["$defs"], load_schema(second)["$defs"]
    different = {name for name in one.keys() & other.keys() if one[name] != other[name]}

    assert different == set()


def test_a_lead_is_described_alike_in_its_part_file_and_on_the_spot() -> None:
    on_the_spot = load_schema("rig")["$defs"]["lead_on_the_spot"]["properties"]
    in_part_file = load_schema("part")["$defs"]["part_entry"]["properties"]
    different = {key for key in on_the_spot.keys() - {"mass"} if on_the_spot[key] != in_part_file[key]}

    assert different == set()


@every_kind
def test_quantities_name_every_unit(kind: str) -> None:
    missing = {
        (node.pointer, unit)
        for node in _nodes(kind)
        if isinstance(node.schema.get("x-quantity"), str)
        for unit in UNITS[node.schema["x-quantity"]]
        if f"`{unit}`" not in node.schema["description"]
    }

    assert missing == set()


def test_vocabulary_is_that_of_the_code() -> None:
    rig, part = load_schema("rig")["$defs"], load_schema("part")["$defs"]

    assert rig["grade"]["enum"] == [grade.value for grade in Grade]
    assert rig["code"]["pattern"] == f"^{CODE_PATTERN.pattern}$"
    assert part["axis"]["examples"] == list(AXES)
    assert set(FLOWS) <= rig["needs"]["properties"].keys()
