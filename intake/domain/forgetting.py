"""A sheet without whoever it was: the numbers stay, so that what was learned stays true."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from intake.domain.known_by import email_key, phone_key, phone_tail
from intake.domain.questions import COMPOSITES

# Which parts of an answer tell of a person or a place.
_PERSONAL: dict[str, tuple[str, ...]] = {
    "boat_name_and_station": ("name",),
    "ship_to": ("postcode",),
}
_OF_CONTACT = ("role",)  # the one part that tells nobody's name
# Boats of one build are compared by these two: they say who built her, not whose she is.
_OF_THE_BUILD = frozenset({("hull_built_by_year", "builder"), ("hull_built_by_year", "length")})
_SHORTEST_WORD = 3  # "of" and "de" tell nobody
_SHORTEST_NUMBER = 7  # digits


class Telling:
    """What people and boats are called by: finds it in free words, whatever way it is written.

    >>> telling = Telling(names=["Wilmot Tarpley"], phones=["+1 202 555 0100"], emails=["w@x.net"])
    >>> telling.stands_in("by letter, TARPLEY"), telling.stands_in("rang from 202-555-0100")
    (True, True)
    >>> telling.stands_in("will be asked by letter")
    False
    """

    def __init__(
        self, *, names: Iterable[str], phones: Iterable[str] = (), emails: Iterable[str] = ()
    ) -> None:
        words = (word for name in names for word in _words(name))
        self._words = frozenset(word for word in words if len(word) >= _SHORTEST_WORD)
        keys = [phone_key(phone) for phone in phones]
        keys += [phone_tail(key) for key in keys]
        self._numbers = frozenset(key for key in keys if len(key) >= _SHORTEST_NUMBER)
        self._addresses = frozenset(filter(None, map(email_key, emails)))

    def stands_in(self, text: str) -> bool:
        """Whether a word of a name, a number or an address stands in this text."""
        digits, folded = phone_key(text), text.casefold()
        return (
            not self._words.isdisjoint(_words(text))
            or any(number in digits for number in self._numbers)
            or any(address in folded for address in self._addresses)
        )


def _words(text: str) -> list[str]:
    return re.findall(r"[^\W_]+", text.casefold())


def without_person(body: Mapping[str, Any], telling: Telling | None = None) -> dict[str, Any]:
    """The body as it was typed, less name, number, address, order number, boat's name, postcode.

    Free words of an answer go as well where ``telling`` finds somebody in them.

    >>> without_person({"contact": {"name": "Odile Marsh", "role": "owner"}, "job": "PO 7741",
    ...     "answers": {"boat_name_and_station": {"name": "Otter", "station": "port"}}})
    {'contact': {'role': 'owner'}, 'answers': {'boat_name_and_station': {'station': 'port'}}}
    """
    telling = telling or Telling(names=())
    kept = {name: value for name, value in body.items() if name != "job"}
    contact = kept.get("contact")
    if isinstance(contact, Mapping):
        kept["contact"] = {part: contact[part] for part in _OF_CONTACT if part in contact}
    answers = kept.get("answers")
    if isinstance(answers, Mapping):
        kept["answers"] = {slug: _answer(slug, told, telling) for slug, told in answers.items()}
    return kept


def _answer(slug: str, told: Any, telling: Telling) -> Any:
    if not isinstance(told, Mapping):
        return told
    personal = _PERSONAL.get(slug, ())
    return {
        part: value
        for part, value in told.items()
        if part not in personal and not _tells(slug, part, value, telling)
    }


def _tells(slug: str, part: str, value: Any, telling: Telling) -> bool:
    """Whether somebody stands in a part that takes any words; a length has none but its own."""
    is_free = COMPOSITES.get(slug, {}).get(part) == "text" and (slug, part) not in _OF_THE_BUILD
    return is_free and isinstance(value, str) and telling.stands_in(value)


def tells_of(value: Any, keys: frozenset[str], key_of: Any) -> bool:
    """Whether one of these keys stands anywhere in nested data; ``key_of`` reads keys of a text."""
    if isinstance(value, Mapping):
        return any(tells_of(each, keys, key_of) for each in value.values())
    if isinstance(value, list | tuple):
        return any(tells_of(each, keys, key_of) for each in value)
    return isinstance(value, str) and not keys.isdisjoint(key_of(value))
