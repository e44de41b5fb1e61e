"""The sheet: every answer of one request as a value, beside the words in which it was given."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from catalog.domain.lengths import Length
from intake.domain.questions import WHEN_UNASKED


class SheetErrors(ValueError):
    """The sheet cannot be read. ``errors``: path of the answer -> sentences for its writer."""

    def __init__(self, errors: dict[str, list[str]]) -> None:
        super().__init__("; ".join(f"{path}: {' '.join(said)}" for path, said in errors.items()))
        self.errors = errors


@dataclass(frozen=True, slots=True)
class Reading:
    """One measured answer. ``length`` is what the tape showed less the start mark.

    ``u_nm`` is the standard uncertainty of the method, in nanometres, with what the words add
    ("about", "shy", two readings). ``mark`` is the smallest mark that the text implies, or None.
    ``again`` is a second reading of the same thing, taken blind from the start.
    """

    slug: str
    text: str
    method: str
    length: Length
    unit: str
    unit_written: bool
    u_nm: float
    doubts: tuple[str, ...] = ()
    start_mark: str = "0"
    again: Reading | None = None
    mark: Length | None = None


@dataclass(frozen=True, slots=True)
class Contact:
    """Who asked, and how to reach them."""

    name: str = ""
    phone: str = ""
    email: str = ""
    role: str = ""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One version of one request. Absent answers are absent; ``states`` says what cannot be had."""

    channel: str = "api"
    tape_unit: str | None = None
    wants: tuple[str, ...] = ()
    contact: Contact = Contact()
    contact_needed: bool = False
    job: str = ""
    alloy: str = ""
    use: str = ""
    readings: Mapping[str, Reading] = field(default_factory=dict)
    choices: Mapping[str, str] = field(default_factory=dict)
    parts: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)
    lists: Mapping[str, tuple[Any, ...]] = field(default_factory=dict)
    states: Mapping[str, str] = field(default_factory=dict)

    @property
    def boat_name(self) -> str:
        """The boat's name, or an empty string."""
        return str(self.part("boat_name_and_station", "name") or "")

    @property
    def station(self) -> str:
        """single, port, starboard, centre, or an empty string where it was not said."""
        return str(self.part("boat_name_and_station", "station") or "")

    @property
    def answered(self) -> frozenset[str]:
        """The questions that have a value."""
        return frozenset(self.readings).union(self.choices, self.parts, self.lists)

    def length(self, slug: str) -> Length | None:
        """A measured answer's length, or None."""
        reading = self.readings.get(slug)
        return reading.length if reading else None

    def part(self, slug: str, name: str) -> Any:
        """One part of a composite answer, or None."""
        answer = self.parts.get(slug)
        return answer.get(name) if answer else None

    def choice(self, slug: str) -> str:
        """A choice; where it was not asked, what the question's own words say; else empty."""
        said = self.choices.get(slug)
        if said is not None:
            return said
        return "unknown" if slug in self.states else WHEN_UNASKED.get(slug, "")

    def cannot(self, slug: str) -> bool:
        """True where the customer said this cannot be measured."""
        return self.states.get(slug) == "cannot_measure"

    def has(self, slug: str) -> bool:
        """True where there is a value for this question."""
        return (
            slug in self.readings
            or slug in self.choices
            or slug in self.parts
            or slug in self.lists
        )
