"""Says what a refused file has wrong: jsonschema finds it, the schema's own words for technicians name it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from rigmint.library.bounds import say_bound
from rigmint.library.document import Document, Path, Value
from rigmint.library.faults import FaultList, find_nearest
from rigmint.rig.quantity import SAMPLES, name_kind

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError

_MOST_WORDS = 40
_KINDS = {
    "object": "a mapping of keys",
    "array": "a list",
    "string": "text",
    "number": "a number",
    "integer": "a whole number",
    "boolean": "true or false",
    "null": "nothing",
}


@dataclass(frozen=True, slots=True)
class _Breach:
    """One breach of the schema: the keyword that is breached, what it wants, what stands there."""

    path: Path
    keyword: str
    wanted: Any
    found: Any
    schema: Mapping[str, Any]


def explain_refusal(document: Document, schema: Mapping[str, Any], faults: FaultList) -> None:
    """Record every fault of shape in a document; of several at one place, the first."""
    for refusal in find_refusals(document.tree, schema):
        file, position = document.locate(refusal.path)
        place = (file, position.line, position.column)
        if not any((fault.file, fault.line, fault.column) == place for fault in faults.found):
            faults.add(file, position, refusal.code, refusal.says)


@dataclass(frozen=True, slots=True)
class Refusal:
    """One breach of a schema in words: where in the tree, the code of its fault, the sentence."""

    path: Path
    code: str
    says: str


def find_refusals(tree: Value, schema: Mapping[str, Any], *, adds_description: bool = False) -> Iterator[Refusal]:
    """Every breach of a schema. `adds_description`: where the schema has no `x-says`, what it says under `description`
    follows in brackets."""
    from jsonschema import Draft202012Validator
    from referencing import Registry

    validator = Draft202012Validator(schema, registry=Registry())  # an empty registry: nothing is fetched
    for error in validator.iter_errors(tree):
        for inner in _innermost(error):
            breach = _normalise(inner)
            for found in _list_refusals(breach):
                yield _add_description(found, breach) if adds_description else found


def _normalise(error: ValidationError) -> _Breach:
    schema = error.schema if isinstance(error.schema, Mapping) else {}
    path = tuple(error.absolute_path)
    if "propertyNames" in error.absolute_schema_path and isinstance(error.instance, str):
        path = (*path, error.instance)  # jsonschema gives the mapping, though a key of it is at fault
    return _Breach(path, str(error.validator), error.validator_value, error.instance, schema)


def _innermost(error: ValidationError) -> Iterator[ValidationError]:
    """The errors that say most: of the branches of a choice, those of the one that fits best."""
    if error.validator not in ("oneOf", "anyOf") or not error.context:
        yield error
        return
    branches: dict[Any, list[ValidationError]] = {}
    for inner in error.context:
        branches.setdefault(inner.schema_path[0], []).append(inner)
    fitting = [errors for errors in branches.values() if not _is_wrong_type(errors, error)]
    if len(fitting) == 1 and "x-says" not in _normalise(error).schema:
        for inner in fitting[0]:
            yield from _innermost(inner)
        return
    if fitting and all(len(inner.path) == 0 for errors in fitting for inner in errors):
        yield error
        return
    if fitting:
        best = max(fitting, key=lambda errors: max(len(inner.absolute_path) for inner in errors))
        for inner in best:
            yield from _innermost(inner)
        return
    yield error


def _is_wrong_type(errors: list[ValidationError], parent: ValidationError) -> bool:
    return any(
        inner.validator in ("type", "const", "enum") and inner.absolute_path == parent.absolute_path for inner in errors
    )


def _list_refusals(error: _Breach) -> Iterator[Refusal]:
    path = error.path
    if error.keyword == "additionalProperties" and isinstance(error.found, dict):
        for key in _unknown_keys(error):
            yield Refusal((*path, key), "file:unknown-key", _say_unknown_key(key, path, error))
        return
    if error.keyword == "required":
        missing = [key for key in error.wanted if key not in error.found]
        says = error.schema.get("x-says") or _say_missing(path, missing)
        yield Refusal(path, "file:missing-key", says)
        return
    code = "file:wrong-kind" if error.keyword in ("type", "oneOf", "anyOf") else "file:bad-value"
    if error.keyword in ("type", "oneOf", "anyOf") and _quantity_due(error.schema) is not None:
        code = "file:wrong-unit"
    if error.keyword in ("oneOf", "anyOf") and isinstance(error.found, dict):
        code = "file:missing-key"
    yield Refusal(path, code, _say(error, path))


def _add_description(refusal: Refusal, error: _Breach) -> Refusal:
    texts = [error.schema.get("description")]
    if error.keyword == "required":
        properties = error.schema.get("properties", {})
        stated = [properties.get(key) for key in error.wanted if key not in error.found]
        texts = [one["description"] for one in stated if isinstance(one, dict) and "description" in one] or texts
    words = " ".join(text.strip().rstrip(".") for text in texts if isinstance(text, str))
    if not words or "x-says" in error.schema:
        return refusal
    return replace(refusal, says=f"{refusal.says} ({words})")


def _unknown_keys(error: _Breach) -> list[str]:
    known = error.schema.get("properties", {})
    patterns = list(error.schema.get("patternProperties", {}))
    return [key for key in error.found if key not in known and not any(re.search(pattern, key) for pattern in patterns)]


def _say_unknown_key(key: str, path: Path, error: _Breach) -> str:
    known = sorted(error.schema.get("properties", {}))
    near = find_nearest(key, known)
    if near is not None:
        return f"{_where(path)}`{key}` is no key here: did you mean `{near}`?"
    says = error.schema.get("x-says")
    if says and not known:
        return f"{_where(path)}`{key}`: {says}"
    listed = ", ".join(f"`{name}`" for name in known)
    return f"{_where(path)}`{key}` is no key here; the keys are {listed}"


def _say_missing(path: Path, missing: list[str]) -> str:
    keys = " and ".join(f"`{key}`" for key in missing)
    return f"{_where(path)}{keys} must be stated"


def _say(error: _Breach, path: Path) -> str:
    kinds = _quantity_due(error.schema)
    if kinds is not None and isinstance(error.found, (int, float)) and not isinstance(error.found, bool):
        return (
            f"{_where(path)}`{error.found}` has no unit: {' or '.join(map(name_kind, kinds))} is due,"
            f" such as `{SAMPLES[kinds[0]]}`"
        )
    says = error.schema.get("x-says")
    if says:
        return f"{_where(path)}{says}"
    shown = _show(error.found)
    if error.keyword == "type":
        names = [error.wanted] if isinstance(error.wanted, str) else error.wanted
        wanted = " or ".join(_KINDS[name] for name in names)
        if kinds is not None:
            wanted = f"{name_kind(kinds[0])} such as `{SAMPLES[kinds[0]]}`"
        return f"{_where(path)}{shown} stands where {wanted} is due"
    if error.keyword in ("enum", "const"):
        words = error.wanted if error.keyword == "enum" else [error.wanted]
        near = find_nearest(str(error.found), [str(word) for word in words])
        meant = f" (did you mean `{near}`?)" if near else ""
        return f"{_where(path)}{shown} is not one of {_list_words(words)}{meant}"
    if error.keyword in ("oneOf", "anyOf"):
        title = error.schema.get("title")
        return f"{_where(path)}{shown} is no {title.lower() if title else 'value that stands here'}"
    return f"{_where(path)}{say_bound(error.keyword, error.wanted, shown)}"


def _list_words(words: list[Any]) -> str:
    listed = ", ".join(f"`{word}`" for word in words[:_MOST_WORDS])
    return f"{listed} and {len(words) - _MOST_WORDS} more" if len(words) > _MOST_WORDS else listed


def _quantity_due(schema: Any) -> list[str] | None:
    if not isinstance(schema, dict):
        return None
    kinds = schema.get("x-quantity")
    if kinds is None:
        branches = [b for word in ("oneOf", "anyOf") for b in schema.get(word, [])]
        kinds = next((b["x-quantity"] for b in branches if isinstance(b, dict) and "x-quantity" in b), None)
    if kinds is None:
        return None
    return [kinds] if isinstance(kinds, str) else list(kinds)


def _where(path: Path) -> str:
    shown = [str(step) for step in path]
    return f"{'.'.join(shown)}: " if shown else ""


def _show(value: object) -> str:
    if value is None:
        return "nothing"
    if isinstance(value, dict):
        return "a mapping of keys"
    if isinstance(value, list):
        return "a list"
    return f"`{str(value)[:60]}`"
