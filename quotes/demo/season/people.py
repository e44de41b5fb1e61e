"""Invented customers, boats and builders; numbers of the range kept for stories."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

_FIRST = (
    "Wilmot", "Hob", "Tamsin", "Orlo", "Bettany", "Jessamy", "Corwen", "Idris", "Perpetua", "Silas",
    "Merrin", "Oswin", "Lowena", "Barnaby", "Ysolde", "Amos", "Drusilla", "Fennimore", "Thirza",
    "Ezra",
)  # fmt: skip
_LAST = (
    "Tarpley", "Tidewell", "Quillfeather", "Brackish", "Mudlark", "Osierbed", "Penhallow-Reed",
    "Sandpiper", "Thwartship", "Eelgrass", "Kedgewell", "Saltmarsh", "Bollardine", "Wherryman",
    "Gudgeon", "Spritsail", "Marlinspike", "Fairlead", "Halyardson", "Tholepin",
)  # fmt: skip
_BOATS = (
    "Biscuit", "Corncrake", "Thimble", "Marmalade", "Pickle", "Sixpence", "Bramble", "Whimbrel",
    "Teasel", "Dunlin", "Clinker", "Samphire", "Button", "Gosling", "Puddle", "Snipe",
)  # fmt: skip
_OF_BOATS = ("", " Two", " Belle", " of Otterhithe", " Again", " Barrel", " Ladle", " Minor")
YARDS = ("Pilchard & Daughters", "Mossop & Niece", "Otterhithe Boat Co-op", "The Ferry Trust")
# Builder, length and the year she was built: families that come back.
HULLS = (
    ("Widgeon Works", "24 ft", "1988"),
    ("Widgeon Works", "28 ft", "1996"),
    ("Larkspur Launches", "21 ft", "2004"),
    ("Crabtree Slip", "32 ft", "1979"),
    ("Crabtree Slip", "26 ft", "1983"),
    ("Osier Isle Boats", "30 ft", "2011"),
)
# Numbers nobody is given: 555 0100 to 0199 of every area.
AREAS = ("202", "303", "404", "505", "602", "707", "808", "907")
ROLES = ("owner",) * 13 + ("crew",) * 2 + ("surveyor",)


@dataclass(frozen=True, slots=True)
class Person:
    """Who asks. ``phone`` is of the range no telephone has."""

    name: str
    phone: str
    role: str

    @property
    def email(self) -> str:
        """An address nobody has."""
        user = "".join(letter for letter in self.name.casefold() if letter.isalpha())
        return f"{user}@example.org"


def people(rng: Random, how_many: int) -> list[Person]:
    """Yards first, then private people; as many as there are numbers at most."""
    found = [Person(yard, _phone(at), "yard") for at, yard in enumerate(YARDS)]
    for at in range(len(YARDS), how_many):
        name = f"{rng.choice(_FIRST)} {rng.choice(_LAST)}"
        found.append(Person(name, _phone(at), rng.choice(ROLES)))
    return found


def _phone(at: int) -> str:
    """555 0100 to 0199 of one area after another."""
    return f"+1 {AREAS[at // 100 % len(AREAS)]} 555 01{at % 100:02d}"


def a_boat(rng: Random) -> str:
    """A boat's name."""
    return rng.choice(_BOATS) + rng.choice(_OF_BOATS)
