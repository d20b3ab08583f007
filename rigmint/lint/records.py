"""Frozen records as plain JSON values and back: what comes back equals what went in."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

T = TypeVar("T")


def to_plain(value: object) -> Any:
    """A record as lists of its fields, in their order; everything in it likewise. Raises TypeError for what is none of
    records, tuples, mappings by text, enums, text, numbers and nothing."""
    if isinstance(value, Enum):
        return value.value
    if value is None or isinstance(value, (str, int, float)):
        return value
    if isinstance(value, (tuple, list)):
        return [to_plain(one) for one in value]
    if isinstance(value, Mapping):
        return {_as_key(key): to_plain(one) for key, one in value.items()}
    if is_dataclass(value) and not isinstance(value, type):
        return [to_plain(getattr(value, field.name)) for field in fields(value)]
    msg = f"{type(value).__name__} has no plain form"
    raise TypeError(msg)


def from_plain(kind: type[T], plain: Any) -> T:
    """The record of a kind. Raises TypeError, ValueError or KeyError where the plain value is not its form."""
    record: T = _reader(kind)(plain)
    return record


def _as_key(key: object) -> str:
    if not isinstance(key, str):
        msg = f"{key!r} is a key and no text"
        raise TypeError(msg)
    return key


def _reader(kind: Any) -> Callable[[Any], Any]:
    """What makes a value of a type from its plain form."""
    return _make_reader(kind)


@cache
def _make_reader(kind: Hashable) -> Callable[[Any], Any]:
    origin, inner = get_origin(kind), get_args(kind)
    if origin in (Union, UnionType):
        return _read_choice([one for one in inner if one is not NoneType])
    if origin is tuple:
        return _read_tuple(inner)
    if origin is not None and isinstance(origin, type) and issubclass(origin, Mapping):
        read_value = _reader(inner[1])
        return lambda plain: {key: read_value(one) for key, one in plain.items()}
    if origin is Literal or kind in (Any, str, int, float, bool):
        return lambda plain: plain
    if isinstance(kind, type) and issubclass(kind, Enum):
        return kind
    if isinstance(kind, type) and is_dataclass(kind):
        return _read_record(kind)
    msg = f"{kind} has no plain form"
    raise TypeError(msg)


def _read_choice(kinds: list[Any]) -> Callable[[Any], Any]:
    """Nothing, a single value or a list: which of the types it is shows in its form."""
    listed = [one for one in kinds if get_origin(one) is tuple or is_dataclass(one)]
    single = [one for one in kinds if one not in listed]
    if len(listed) > 1 or any(one not in (str, int, float, bool) for one in single[1:]):
        msg = f"which of {kinds} a plain value is does not show"
        raise TypeError(msg)
    read_listed = _reader(listed[0]) if listed else None
    read_single = _reader(single[0]) if single else None

    def read(plain: Any) -> Any:
        if plain is None:
            return None
        reader = read_listed if isinstance(plain, list) else read_single
        if reader is None:
            msg = f"{plain!r} stands where another form is due"
            raise TypeError(msg)
        return reader(plain)

    return read


def _read_tuple(inner: tuple[Any, ...]) -> Callable[[Any], Any]:
    if len(inner) == 2 and inner[1] is Ellipsis:
        read_one = _reader(inner[0])
        return lambda plain: tuple([read_one(one) for one in plain])
    readers = [_reader(one) for one in inner]
    return lambda plain: tuple(read(one) for read, one in zip(readers, plain, strict=True))


def _read_record(kind: type) -> Callable[[Any], Any]:
    hints = get_type_hints(kind)
    readers: list[Callable[[Any], Any]] = []

    def read(plain: Any) -> Any:
        if not readers:  # made late, since a record may hold its own kind
            readers.extend(_reader(hints[field.name]) for field in fields(kind))
        return kind(*[read_one(one) for read_one, one in zip(readers, plain, strict=True)])

    return read
