"""A box, a field and a section of the call page, as a template draws them."""

from __future__ import annotations

from dataclasses import dataclass

from intake.desk_order import CODES
from intake.desk_ways import FORMS, ways_of
from intake.desk_words import Options, Words


@dataclass(frozen=True, slots=True)
class Box:
    """One thing to type into or choose from."""

    name: str
    label: Words
    value: str = ""
    options: Options = ()
    always: bool = False  # one of the options is always chosen
    stop: bool = False  # Enter stops here

    @property
    def id(self) -> str:
        """Its id on the page; names have dots, ids are kinder without."""
        return "f-" + self.name.replace(".", "-")

    @property
    def code(self) -> str:
        """The letters of its chord, where it is a field of its own."""
        return CODES.get(self.name, "")


@dataclass(frozen=True, slots=True)
class Field:
    """One question: its short name, the open question, its boxes, what was wrong with it."""

    key: str
    label: Words
    ask: str
    boxes: tuple[Box, ...]
    errors: tuple[str, ...] = ()
    state: Box | None = None
    is_length: bool = False
    code: str = ""  # the letters of its chord, on the call page alone

    @property
    def id(self) -> str:
        """The stem of the ids of its hint, error and read-back."""
        return "f-" + self.key.replace(".", "-")

    @property
    def described(self) -> str:
        """The ids of what is said about it."""
        return f"{self.id}-ask {self.id}-read" if self.ask else f"{self.id}-read"

    @property
    def unnamed(self) -> str:
        """Whether the boxes need no name of their own on the screen: the field's name says it."""
        if self.state is None and len(self.boxes) == 1:
            return "none"
        return "hidden" if self.is_length or len(self.boxes) == 1 else ""

    @property
    def cannot(self) -> bool:
        """Whether "cannot measure" was ticked."""
        return self.state is not None and self.state.value == "cannot_measure"

    @property
    def ways(self) -> str:
        """What may be said after the number, one word for each way: "rod, helper, one hand"."""
        slug = self.key.removeprefix("answers.")
        return ", ".join(FORMS[way][0] for way in ways_of(slug))


@dataclass(frozen=True, slots=True)
class Section:
    """A few questions under one heading; `tucked` ones stay folded until needed."""

    key: str
    title: Words
    fields: tuple[Field, ...]

    @property
    def tucked(self) -> bool:
        """Folded, unless something is typed or wrong in it."""
        used = any(box.value for field in self.fields for box in field.boxes[:1])
        return self.key == "more" and not used and not any(f.errors for f in self.fields)
