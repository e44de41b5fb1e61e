"""A sheet without whoever it was: the numbers stay, so that what was learned stays true."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

# Which parts of an answer tell of a person or a place.
_PERSONAL: dict[str, tuple[str, ...]] = {
    "boat_name_and_station": ("name",),
    "ship_to": ("postcode",),
}
_OF_CONTACT = ("role",)  # the one part that tells nobody's name


def without_person(body: Mapping[str, Any]) -> dict[str, Any]:
    """The body as it was typed, less name, number, address, order number, boat's name, postcode.

    >>> without_person({"contact": {"name": "Odile Marsh", "role": "owner"}, "job": "PO 7741",
    ...     "answers": {"boat_name_and_station": {"name": "Otter", "station": "port"}}})
    {'contact': {'role': 'owner'}, 'answers': {'boat_name_and_station': {'station': 'port'}}}
    """
    kept = {name: value for name, value in body.items() if name != "job"}
    contact = kept.get("contact")
    if isinstance(contact, Mapping):
        kept["contact"] = {part: contact[part] for part in _OF_CONTACT if part in contact}
    answers = kept.get("answers")
    if isinstance(answers, Mapping):
        kept["answers"] = {slug: _answer(slug, told) for slug, told in answers.items()}
    return kept


def _answer(slug: str, told: Any) -> Any:
    personal = _PERSONAL.get(slug, ())
    if not personal or not isinstance(told, Mapping):
        return told
    return {part: value for part, value in told.items() if part not in personal}


def tells_of(value: Any, keys: frozenset[str], key_of: Any) -> bool:
    """Whether one of these keys stands anywhere in nested data; ``key_of`` reads keys of a text."""
    if isinstance(value, Mapping):
        return any(tells_of(each, keys, key_of) for each in value.values())
    if isinstance(value, list | tuple):
        return any(tells_of(each, keys, key_of) for each in value)
    return isinstance(value, str) and not keys.isdisjoint(key_of(value))
