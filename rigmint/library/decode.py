"""Walks a parsed tree along a JSON Schema: accepts or refuses it, and turns quantities into SI floats on the way.

It knows only the keywords that our schemas use. Where it refuses, jsonschema explains (explain.py); so jsonschema is
imported only for files with faults. What it decides itself is what the schema cannot say: quantities.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, TypeAlias

from rigmint.library.document import Document, Path, Value
from rigmint.library.faults import FaultList
from rigmint.rig.quantity import UNITS, QuantityError, parse_any, parse_quantity, parse_range

Schema: TypeAlias = Mapping[str, Any]
Decoder: TypeAlias = "Callable[[Value, Path, Reading], Any]"
MappingDecoder: TypeAlias = "Callable[[dict[str, Value], Path, Reading], Any]"
SequenceDecoder: TypeAlias = "Callable[[list[Value], Path, Reading], Any]"


class _Refused:
    """What a decoder returns for a value that the schema refuses; what holds it leaves it out."""


REFUSED = _Refused()

_TYPES: dict[str, tuple[type, ...]] = {
    "object": (dict,),
    "array": (list,),
    "string": (str,),
    "number": (int, float),
    "integer": (int,),
    "boolean": (bool,),
    "null": (type(None),),
}


@dataclass(slots=True)
class Reading:
    """What one walk gathers: faults of quantities, and whether the shape is refused."""

    document: Document
    faults: FaultList
    refused: bool = False
    is_trial: bool = False
    """Whether a branch of a choice is tried: nothing is recorded then."""

    def refuse(self) -> None:
        """Note that the shape is wrong."""
        self.refused = True

    def fault(self, path: Path, code: str, says: str) -> None:
        """Record a fault of a value at the place where it was written."""
        if self.is_trial:
            self.refused = True
            return
        file, position = self.document.locate(path)
        self.faults.add(file, position, code, says)


class SchemaDecoder:
    """A schema compiled once into nested functions."""

    def __init__(self, schema: Schema) -> None:
        self._schema = schema
        self._refs: dict[str, Decoder] = {}
        self._root = self._compile(schema)

    def decode(self, document: Document, faults: FaultList) -> tuple[Any, bool]:
        """The decoded tree, and whether the shape was accepted. Faults of quantities are recorded.

        What is refused is left out of the tree, and what lacks a required key with it, so that the rest can still be
        checked; a refused entry of a list is None, so that the others keep their index. A refused root is None.
        """
        reading = Reading(document, faults)
        decoded = self._root(document.tree, (), reading)
        return None if decoded is REFUSED else decoded, not reading.refused

    def _compile(self, schema: Schema) -> Decoder:
        if "$ref" in schema:
            return self._compile_ref(str(schema["$ref"]))
        for word in ("oneOf", "anyOf"):
            if word in schema:
                return self._compile_choice(schema, word)
        if "const" in schema or "enum" in schema:
            return _decode_words(tuple(schema.get("enum", [schema.get("const")])), bool(schema.get("x-text")))
        if schema.get("x-text"):
            return _decode_text(schema)
        if "x-quantity" in schema:
            return _decode_quantity(schema)
        return self._compile_typed(schema)

    def _compile_ref(self, ref: str) -> Decoder:
        def follow(value: Value, path: Path, reading: Reading) -> Any:
            decoder = self._refs.get(ref)
            if decoder is None:
                target: Any = self._schema
                for step in ref.removeprefix("#/").split("/"):
                    target = target[step]
                decoder = self._refs[ref] = self._compile(target)
            return decoder(value, path, reading)

        return follow

    def _compile_choice(self, schema: Schema, word: str) -> Decoder:
        branches = [(self._types_of(branch), self._compile(branch)) for branch in schema[word]]
        rest = {key: item for key, item in schema.items() if key != word}
        needs_rest = bool(rest.keys() & {"type", "properties", "patternProperties", "required"})
        base = self._compile(rest) if needs_rest else None
        if base is not None and all("properties" not in self._resolve(branch) for branch in schema[word]):
            return _decode_with_conditions(base, [branch for _, branch in branches], exactly_one=word == "oneOf")

        def choose(value: Value, path: Path, reading: Reading) -> Any:
            fitting = [branch for types, branch in branches if _is_of(value, types)]
            for branch in fitting[:-1]:
                trial = Reading(reading.document, reading.faults, is_trial=True)
                result = branch(value, path, trial)
                if not trial.refused:
                    return result
            if fitting:  # the last one speaks: the only one of its kind, or the one that says which unit was due
                return fitting[-1](value, path, reading)
            reading.refuse()
            return REFUSED

        return choose

    def _types_of(self, schema: Schema) -> tuple[type, ...]:
        """The Python types that a branch may hold; empty for any."""
        schema = self._resolve(schema)
        if "const" in schema or "enum" in schema:
            return tuple({type(word) for word in schema.get("enum", [schema.get("const")])})
        kinds = schema.get("type")
        if kinds is None and "properties" in schema:
            return (dict,)
        names = [kinds] if isinstance(kinds, str) else list(kinds or [])
        return tuple(kind for name in names for kind in _TYPES[name])

    def _resolve(self, schema: Schema) -> Schema:
        while "$ref" in schema:
            target: Any = self._schema
            for step in str(schema["$ref"]).removeprefix("#/").split("/"):
                target = target[step]
            schema = target
        return schema

    def _compile_typed(self, schema: Schema) -> Decoder:
        kinds = schema.get("type")
        names = [kinds] if isinstance(kinds, str) else list(kinds or [])
        if not names and ("properties" in schema or "required" in schema or "additionalProperties" in schema):
            names = ["object"]
        types = tuple(kind for name in names for kind in _TYPES[name])
        mapping = self._compile_mapping(schema) if "object" in names else None
        sequence = self._compile_sequence(schema) if "array" in names else None
        check = _compile_checks(schema)
        wants_bool = "boolean" in names

        def decode(value: Value, path: Path, reading: Reading) -> Any:
            if types and (not isinstance(value, types) or (isinstance(value, bool) and not wants_bool)):
                reading.refuse()
                return REFUSED
            if mapping is not None and isinstance(value, dict):
                return mapping(value, path, reading)
            if sequence is not None and isinstance(value, list):
                return sequence(value, path, reading)
            if check is not None and not check(value):
                reading.refuse()
                return REFUSED
            return value

        return decode

    def _compile_mapping(self, schema: Schema) -> MappingDecoder:
        properties = {key: self._compile(sub) for key, sub in schema.get("properties", {}).items()}
        patterns = [(re.compile(key), self._compile(sub)) for key, sub in schema.get("patternProperties", {}).items()]
        extra = schema.get("additionalProperties", True)
        extra_decoder = self._compile(extra) if isinstance(extra, dict) else None
        names = schema.get("propertyNames", {}).get("pattern")
        name_pattern = re.compile(names) if names else None
        required = tuple(schema.get("required", ()))
        least = int(schema.get("minProperties", 0))

        def decode(value: dict[str, Value], path: Path, reading: Reading) -> Any:
            result: dict[str, Any] = {}
            for key, item in value.items():
                here = (*path, key)
                if name_pattern is not None and not name_pattern.search(key):
                    reading.refuse()
                    continue
                decoder = properties.get(key) or next((d for p, d in patterns if p.search(key)), extra_decoder)
                if decoder is not None:
                    decoded = decoder(item, here, reading)
                    if decoded is not REFUSED:
                        result[key] = decoded
                elif extra is False:
                    reading.refuse()
                else:
                    result[key] = item
            if len(value) < least or any(key not in result for key in required):
                reading.refuse()
                return REFUSED
            return result

        return decode

    def _compile_sequence(self, schema: Schema) -> SequenceDecoder:
        items = self._compile(schema["items"]) if "items" in schema else None
        least, most = int(schema.get("minItems", 0)), schema.get("maxItems")

        def decode(value: list[Value], path: Path, reading: Reading) -> Any:
            if len(value) < least or (most is not None and len(value) > most):
                reading.refuse()
                return REFUSED
            if items is None:
                return value
            decoded = [items(item, (*path, index), reading) for index, item in enumerate(value)]
            return [None if item is REFUSED else item for item in decoded]

        return decode


def _is_of(value: Value, types: tuple[type, ...]) -> bool:
    return not types or type(value) in types


def _decode_with_conditions(base: Decoder, conditions: list[Decoder], *, exactly_one: bool) -> Decoder:
    """A mapping of which one of several sets of keys must be there: `oneOf` exactly one, `anyOf` at least one."""

    def decode(value: Value, path: Path, reading: Reading) -> Any:
        result = base(value, path, reading)
        trials = [Reading(reading.document, reading.faults, is_trial=True) for _ in conditions]
        for condition, trial in zip(conditions, trials, strict=True):
            condition(value, path, trial)
        held = sum(not trial.refused for trial in trials)
        if held == 0 or (exactly_one and held > 1):
            reading.refuse()
            return REFUSED
        return result

    return decode


def _decode_words(words: tuple[Any, ...], as_text: bool) -> Decoder:
    def decode(value: Value, path: Path, reading: Reading) -> Any:
        shown = reading.document.raw(path, value) if as_text and not isinstance(value, (dict, list)) else value
        if shown not in words or (isinstance(shown, bool) and not any(word is shown for word in words)):
            reading.refuse()
            return REFUSED
        return shown

    return decode


def _decode_text(schema: Schema) -> Decoder:
    pattern = re.compile(schema["pattern"]) if "pattern" in schema else None

    def decode(value: Value, path: Path, reading: Reading) -> Any:
        if value is None or isinstance(value, (dict, list)):
            reading.refuse()
            return REFUSED
        text = reading.document.raw(path, value)
        if pattern is not None and not pattern.search(text):
            reading.refuse()
            return REFUSED
        return text

    return decode


def _decode_quantity(schema: Schema) -> Decoder:
    stated = schema["x-quantity"]
    kinds: tuple[str, ...] = (stated,) if isinstance(stated, str) else tuple(stated)
    unknown = [kind for kind in kinds if kind not in UNITS]
    if unknown:
        msg = f"the schema names kinds of quantity that do not exist: {unknown}"
        raise ValueError(msg)
    is_range, is_single = bool(schema.get("x-range")), isinstance(stated, str)
    pattern = re.compile(schema["pattern"]) if "pattern" in schema else None

    def decode(value: Value, path: Path, reading: Reading) -> Any:
        if value is None or isinstance(value, (bool, dict, list)):
            reading.refuse()
            return REFUSED
        text = reading.document.raw(path, value)
        try:
            if is_range:
                found: Any = parse_range(text, kinds[0])
            else:
                found = parse_quantity(text, kinds[0]) if is_single else parse_any(text, kinds)
        except QuantityError as error:
            reading.fault(path, "file:wrong-unit", str(error))
            return REFUSED
        if pattern is not None and not pattern.search(text):
            reading.refuse()
            return REFUSED
        return found

    return decode


def _compile_checks(schema: Schema) -> Callable[[Value], bool] | None:
    pattern = re.compile(schema["pattern"]) if "pattern" in schema else None
    low, high, above = schema.get("minimum"), schema.get("maximum"), schema.get("exclusiveMinimum")
    least, most = schema.get("minLength"), schema.get("maxLength")
    if pattern is None and all(bound is None for bound in (low, high, above, least, most)):
        return None

    def check(value: Value) -> bool:
        if isinstance(value, str):
            return (
                (pattern is None or pattern.search(value) is not None)
                and (least is None or len(value) >= least)
                and (most is None or len(value) <= most)
            )
        if isinstance(value, (int, float)):
            return (
                (low is None or value >= low) and (high is None or value <= high) and (above is None or value > above)
            )
        return True

    return check
