"""Whether a house's JSON Schema can be used: JSON, of the right dialect, whole in itself, with patterns that compile.

Runs in the process of `schema_worker`, since a schema from a repository may be made to take for ever.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from rigmint.library.document import Path
from rigmint.library.schema_request import SchemaFault

if TYPE_CHECKING:
    from referencing._core import Resolver

DIALECT = "https://json-schema.org/draft/2020-12/schema"
_REFERENCES = ("$ref", "$dynamicRef")


class _TwiceKey(ValueError):
    """A key that stands twice in one object."""


def read_schema(text: str) -> tuple[dict[str, Any] | None, list[SchemaFault]]:
    """The schema, or None with what is wrong with it."""
    try:
        schema = json.loads(text, object_pairs_hook=_refuse_twice)
    except json.JSONDecodeError as error:
        says = f"a house schema is JSON, and this is not: {error.msg.lower()}"
        return None, [SchemaFault("file:wrong-kind", says, line=error.lineno, column=error.colno)]
    except _TwiceKey as error:
        return None, [SchemaFault("file:duplicate-key", str(error))]
    except RecursionError:
        return None, [SchemaFault("file:too-deep", "the schema nests deeper than is read")]
    if not isinstance(schema, dict):
        return None, [SchemaFault("file:wrong-kind", "a house schema is an object of keywords")]
    faults = [*_find_dialect_faults(schema)] or [*_find_breaches(schema)] or [*_find_loose_ends(schema)]
    return (None, faults) if faults else (schema, [])


def _refuse_twice(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for key, value in pairs:
        if key in found:
            msg = f"`{key}` stands twice in one object of the schema"
            raise _TwiceKey(msg)
        found[key] = value
    return found


def _find_dialect_faults(schema: dict[str, Any]) -> Iterator[SchemaFault]:
    dialect = schema.get("$schema", DIALECT)
    if not isinstance(dialect, str) or dialect.rstrip("#") != DIALECT:
        says = f"the schema is written for `{dialect}`; house schemas are JSON Schema 2020-12, `{DIALECT}`"
        yield SchemaFault("file:bad-value", says, ("$schema",))


def _find_breaches(schema: dict[str, Any]) -> Iterator[SchemaFault]:
    """Where it is no schema by the rules of JSON Schema itself."""
    from jsonschema import Draft202012Validator
    from jsonschema.exceptions import best_match

    error = best_match(Draft202012Validator(Draft202012Validator.META_SCHEMA).iter_errors(schema))
    if error is not None:
        says = f"this is no JSON Schema: {error.message[:200]}"
        yield SchemaFault("file:bad-value", says, tuple(error.absolute_path))


def _find_loose_ends(schema: dict[str, Any]) -> Iterator[SchemaFault]:
    """References that lead out of the schema or nowhere, and patterns that are none."""
    from referencing import Registry
    from referencing.exceptions import Unresolvable
    from referencing.jsonschema import DRAFT202012

    root = Registry().resolver_with_root(DRAFT202012.create_resource(schema))
    for path, inner, resolver in _walk(schema, (), root):
        for keyword in _REFERENCES:
            target = inner.get(keyword)
            if isinstance(target, str):
                try:
                    resolver.lookup(target)
                except Unresolvable:
                    yield SchemaFault("file:bad-value", _say_loose(keyword, target), (*path, keyword))
        for where, pattern in _list_patterns(inner):
            try:
                re.compile(pattern)
            except (re.error, OverflowError, RecursionError) as error:
                says = f"`{pattern[:60]}` is no pattern: {error}"
                yield SchemaFault("file:bad-value", says, (*path, *where))


def _say_loose(keyword: str, target: str) -> str:
    if target.startswith("#"):
        return f"`{keyword}: {target}` leads nowhere in the schema"
    return f"`{keyword}: {target}` leads out of the schema: nothing is fetched, a house schema is whole in one file"


_ONE = frozenset({
    "additionalProperties", "contains", "contentSchema", "else", "if", "items", "not", "propertyNames", "then",
    "unevaluatedItems", "unevaluatedProperties",
})  # fmt: skip
_LISTS = frozenset({"allOf", "anyOf", "oneOf", "prefixItems"})
_NAMED = frozenset({"$defs", "definitions", "dependentSchemas", "patternProperties", "properties"})
"""Keywords that hold a schema, a list of schemas, schemas by name: JSON Schema 2020-12, Core 10 and 11, Validation."""


def _walk(schema: Any, path: Path, outer: Resolver[Any]) -> Iterator[tuple[Path, dict[str, Any], Resolver[Any]]]:
    """Every schema within a schema, with its path and what resolves its references. What stands under `const`, `enum`
    and the like is data."""
    from referencing.jsonschema import DRAFT202012

    if not isinstance(schema, dict):
        return
    resolver = outer.in_subresource(DRAFT202012.create_resource(schema))
    yield path, schema, resolver
    for keyword, value in schema.items():
        here = (*path, keyword)
        if keyword in _ONE:
            yield from _walk(value, here, resolver)
        elif keyword in _LISTS and isinstance(value, list):
            for index, inner in enumerate(value):
                yield from _walk(inner, (*here, index), resolver)
        elif keyword in _NAMED and isinstance(value, dict):
            for name, inner in value.items():
                yield from _walk(inner, (*here, name), resolver)


def _list_patterns(schema: dict[str, Any]) -> Iterator[tuple[Path, str]]:
    pattern = schema.get("pattern")
    if isinstance(pattern, str):
        yield ("pattern",), pattern
    named = schema.get("patternProperties")
    for name in named if isinstance(named, dict) else ():
        yield ("patternProperties", name), name
