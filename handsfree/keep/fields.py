"""The kinds of fields that an event may have, each with its form in JSON.

str int float bool   as they are
Fraction             "125/4"
datetime, aware      RFC 3339, UTC, microseconds, Z
date                 "2031-05-04"
Enum                 its value, a str or int
tuple                a list
dict[str, X]         an object
frozen dataclass     an object of its fields
X | None             null, or X
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import MISSING, Field, fields, is_dataclass
from datetime import UTC, date, datetime
from enum import Enum
from fractions import Fraction
from types import NoneType, UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

Reader = Callable[[Any], Any]
"""Turns a JSON value into the value of a field; raises ValueError where it is none."""

_FRACTION = re.compile(r"-?[0-9]+/[1-9][0-9]*")
_TIME = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}\.[0-9]{6}Z")
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def written(value: Any) -> Any:
    """A field's value as JSON. Raises TypeError for an unknown kind, ValueError for a time without a zone."""
    match value:
        case Enum():
            return value.value
        case None | bool() | int() | float() | str():
            return value
        case Fraction():
            return f"{value.numerator}/{value.denominator}"
        case datetime():
            return written_time(value)
        case date():
            return value.isoformat()
        case tuple():
            return [written(each) for each in value]
        case dict():
            return {name: written(each) for name, each in value.items()}
        case _ if is_dataclass(value):
            return {field.name: written(getattr(value, field.name)) for field in fields(value)}
        case _:
            raise TypeError(f"no form in JSON for {value!r}")


def written_time(at: datetime) -> str:
    """A time as RFC 3339 in UTC with microseconds and Z. Raises ValueError for a time without a zone."""
    if at.tzinfo is None:
        raise ValueError(f"{at} has no time zone")
    return at.astimezone(UTC).isoformat(timespec="microseconds").replace("+00:00", "Z")


def read_time(text: str) -> datetime:
    """The time that `written_time` wrote. Raises ValueError where it is none."""
    if not _TIME.fullmatch(text):
        raise ValueError(f"{text!r} is not a time")
    return datetime.fromisoformat(text)


def reader(kind: Any) -> Reader:
    """What reads fields of this annotation. Raises TypeError for a kind that is not in the list above."""
    origin, arguments = get_origin(kind), get_args(kind)
    if kind in _PLAIN:
        return _PLAIN[kind]
    if isinstance(kind, type) and issubclass(kind, Enum):
        return _enum_reader(kind)
    if isinstance(kind, type) and is_dataclass(kind):
        return _dataclass_reader(kind)
    if origin in (Union, UnionType) and NoneType in arguments and len(arguments) == 2:
        return _optional_reader(reader(next(each for each in arguments if each is not NoneType)))
    if origin is tuple and arguments[1:] == (...,):
        return _list_reader(reader(arguments[0]))
    if origin is tuple:
        return _tuple_reader([reader(each) for each in arguments])
    if origin is dict and arguments[0] is str:
        return _dict_reader(reader(arguments[1]))
    raise TypeError(f"a field of an event cannot be {kind}")


def _of(*types: type) -> Reader:
    def read(value: Any) -> Any:
        if type(value) not in types:
            raise ValueError(f"{value!r} is not {types[0].__name__}")
        return types[0](value)

    return read


def _matching(pattern: re.Pattern[str], make: Callable[[str], Any]) -> Reader:
    def read(value: Any) -> Any:
        if not isinstance(value, str) or not pattern.fullmatch(value):
            raise ValueError(f"{value!r} has another form")
        return make(value)

    return read


_PLAIN: dict[Any, Reader] = {
    str: _of(str),
    int: _of(int),
    float: _of(float, int),
    bool: _of(bool),
    Fraction: _matching(_FRACTION, Fraction),
    datetime: _matching(_TIME, datetime.fromisoformat),
    date: _matching(_DATE, date.fromisoformat),
}


def _enum_reader(kind: type[Enum]) -> Reader:
    if not all(isinstance(member.value, str | int) for member in kind):
        raise TypeError(f"{kind} has values that are neither str nor int")
    return kind


def _dataclass_reader(kind: type) -> Reader:
    hints = get_type_hints(kind)
    readers = {field.name: reader(hints[field.name]) for field in fields(kind)}
    needed = {field.name for field in fields(kind) if not _has_default(field)}

    def read(value: Any) -> Any:
        if not isinstance(value, dict) or not needed <= value.keys() <= readers.keys():
            raise ValueError(f"{kind.__name__} has other fields")
        return kind(**{name: readers[name](stored) for name, stored in value.items()})

    return read


def _has_default(field: Field[Any]) -> bool:
    """Whether records from before the field was there can be read without it."""
    return field.default is not MISSING or field.default_factory is not MISSING


def _optional_reader(read: Reader) -> Reader:
    return lambda value: None if value is None else read(value)


def _list_reader(read: Reader) -> Reader:
    return lambda value: tuple(read(each) for each in _of(list)(value))


def _tuple_reader(readers: list[Reader]) -> Reader:
    def read(value: Any) -> Any:
        return tuple(read_each(each) for read_each, each in zip(readers, _of(list)(value), strict=True))

    return read


def _dict_reader(read: Reader) -> Reader:
    return lambda value: {name: read(each) for name, each in _of(dict)(value).items()}
