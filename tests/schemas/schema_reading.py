"""What the schema tests share: loading a schema, walking its nodes, reading a YAML text with text keys."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from jsonschema import Draft202012Validator, ValidationError, validators
from jsonschema.protocols import Validator
from referencing import Registry
from ruamel.yaml import YAML
from ruamel.yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from rigmint.rig.quantity import QuantityError, parse_any, parse_quantity, parse_range

SCHEMAS = Path(__file__).parents[2] / "schemas"
KINDS = ("rig", "part", "library", "connectors", "protocols")
CHOICES = ("oneOf", "anyOf")
MAPS_OF_SCHEMAS = ("properties", "patternProperties", "$defs")


@dataclass(frozen=True, slots=True)
class SchemaNode:
    """One subschema, the pointer to it, and the keyword that holds it."""

    pointer: str
    holder: str
    schema: Mapping[str, Any]


def load_schema(kind: str) -> dict[str, Any]:
    """The schema of one kind of file."""
    schema: dict[str, Any] = json.loads((SCHEMAS / f"{kind}.schema.json").read_text(encoding="utf-8"))
    return schema


def walk_nodes(schema: Mapping[str, Any], pointer: str = "#", holder: str = "") -> Iterator[SchemaNode]:
    """The schema and every subschema in it, each once; references are not followed."""
    yield SchemaNode(pointer, holder, schema)
    for word in MAPS_OF_SCHEMAS:
        for key, inner in schema.get(word, {}).items():
            yield from walk_nodes(inner, f"{pointer}/{word}/{key}", word)
    for word in ("items", "additionalProperties", "propertyNames"):
        if isinstance(schema.get(word), dict):
            yield from walk_nodes(schema[word], f"{pointer}/{word}", word)
    for word in CHOICES:
        for index, inner in enumerate(schema.get(word, [])):
            yield from walk_nodes(inner, f"{pointer}/{word}/{index}", word)


def resolve_ref(schema: Mapping[str, Any], root: Mapping[str, Any]) -> Mapping[str, Any]:
    """The schema that a node stands for: the target of its reference, or itself."""
    while "$ref" in schema:
        schema = root["$defs"][str(schema["$ref"]).removeprefix("#/$defs/")]
    return schema


def make_validator(schema: Mapping[str, Any], root: Mapping[str, Any]) -> Validator:
    """A validator for a node of `root` that reads quantities too and fetches nothing."""
    return extend_validator("x-quantity", _check_quantity)({**schema, "$defs": root["$defs"]}, registry=Registry())


def extend_validator(keyword: str, check: Callable[..., Iterator[ValidationError]]) -> Callable[..., Validator]:
    """Draft 2020-12 with one more keyword, or with another meaning of one."""
    extend: Callable[..., Callable[..., Validator]] = validators.extend
    return extend(Draft202012Validator, {keyword: check})


def _check_quantity(
    _validator: Validator, kinds: str | list[str], text: object, schema: Mapping[str, Any]
) -> Iterator[ValidationError]:
    if not isinstance(text, str):
        return
    try:
        if isinstance(kinds, list):
            parse_any(text, tuple(kinds))
        elif schema.get("x-range"):
            parse_range(text, kinds)
        else:
            parse_quantity(text, kinds)
    except QuantityError as error:
        yield ValidationError(str(error))


def read_yaml(text: str) -> Any:
    """The tree of a YAML 1.2 text: keys are text, dates are text."""
    yaml = YAML(typ="safe", pure=True)
    yaml.version = "1.2"
    return _build_tree(yaml.compose(text))


def _build_tree(node: Node) -> Any:
    if isinstance(node, MappingNode):
        return {str(key.value): _build_tree(value) for key, value in node.value}
    if isinstance(node, SequenceNode):
        return [_build_tree(item) for item in node.value]
    assert isinstance(node, ScalarNode)
    text = str(node.value)
    kind = str(node.tag).rsplit(":", 1)[-1]
    if kind in ("int", "float"):
        return int(text) if kind == "int" else float(text)
    return {"bool": text == "true", "null": None}.get(kind, text)
