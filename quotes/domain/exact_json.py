"""Frozen values as JSON and back, exact: money and rates as text, lengths in whole nanometres.

What a value is made of is read from its dataclass, so a field that came later has its default in
what was kept before.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import fields, is_dataclass
from decimal import Decimal
from enum import Enum
from functools import cache
from types import NoneType, UnionType
from typing import Any, TypeVar, Union, cast, get_args, get_origin, get_type_hints

from catalog.domain.lengths import Length

_T = TypeVar("_T")


def to_json(value: Any) -> Any:
    """A value of ours as JSON keeps it. Raises TypeError for what cannot be kept exactly.

    >>> to_json((Decimal("3.60"), Length(25400000), None))
    ['3.60', 25400000, None]
    """
    if value is None or (isinstance(value, bool | int | str) and not isinstance(value, Enum)):
        return value
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, Decimal):
        return str(value)
    if isinstance(value, Length):
        return value.nm
    return _many(value)


def _many(value: Any) -> Any:
    if is_dataclass(value):
        kept = [field for field in fields(value) if field.init]
        return {field.name: to_json(getattr(value, field.name)) for field in kept}
    if isinstance(value, Mapping):
        return {str(name): to_json(each) for name, each in value.items()}
    if isinstance(value, frozenset):
        return sorted(to_json(each) for each in value)
    if isinstance(value, tuple | list):
        return [to_json(each) for each in value]
    raise TypeError(f"{type(value).__name__} cannot be kept exactly")


def from_json(kind: type[_T], kept: Any) -> _T:
    """The value of that kind again.

    >>> from_json(Decimal, "3.60"), from_json(Length, 25400000).inch_text
    (Decimal('3.60'), '1')
    """
    return cast(_T, _read(kind, kept))


def _read(kind: Any, kept: Any) -> Any:
    if kind is Any or kind is object:
        return kept
    origin = get_origin(kind)
    if origin in (Union, UnionType):
        (inner,) = (each for each in get_args(kind) if each is not NoneType)
        return None if kept is None else _read(inner, kept)
    if origin is not None:
        return _read_many(origin, get_args(kind), kept)
    if kind is Length:
        return Length(int(kept))
    if isinstance(kind, type) and is_dataclass(kind):
        hints = _hints(kind)
        return kind(
            **{name: _read(hints[name], each) for name, each in kept.items() if name in hints}
        )
    return kind(kept)


def _read_many(origin: Any, inner: Sequence[Any], kept: Any) -> Any:
    if issubclass(origin, Mapping):
        return {name: _read(inner[1], each) for name, each in kept.items()}
    if origin is frozenset:
        return frozenset(_read(inner[0], each) for each in kept)
    if inner[-1] is Ellipsis:
        return tuple(_read(inner[0], each) for each in kept)
    return tuple(_read(one, each) for one, each in zip(inner, kept, strict=True))


@cache
def _hints(kind: type) -> Mapping[str, Any]:
    hints = get_type_hints(kind)
    known = cast(Any, kind)
    return {field.name: hints[field.name] for field in fields(known) if field.init}
