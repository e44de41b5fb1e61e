"""What the machinist typed, read: the tape's language or decimals, and thou for run-out."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Literal

from catalog.domain.lengths import Length, inches
from catalog.domain.tape import LengthError, read_length
from quotes.domain.as_made import PLACES, TOOLS, Accepted, AsMade

BOXES = {
    "length": "Face to thread end",
    "overall": "Overall",
    "small_end": "Small end",
    "runout_coupling": "Run-out at the coupling end",
    "runout_bearing": "Run-out at the bearing",
    "runout_taper": "Run-out at the taper",
    "face": "Run-out of the coupling's face",
    "contact": "Contact",
    "seat": "Trial seat",
}
LONGEST = 40  # signs in a box
# Beyond these a number is a slip of the finger or of the unit, not a shaft (common practice).
_FARTHEST = inches(12)
_RUNOUT_MOST, _SMALL_OFF, _SEAT_MOST = inches("0.25"), inches("0.25"), inches(6)
_THOU = re.compile(r"(\d+(?:\.\d+)?)\s*(?:thou|mil|mils)", re.IGNORECASE)


class NotRead(ValueError):
    """Something cannot be read. ``errors``: box -> sentence."""

    def __init__(self, errors: Mapping[str, str]) -> None:
        super().__init__(" ".join(errors.values()))
        self.errors = errors


def read_as_made(typed: Mapping[str, str], wanted: Accepted) -> AsMade:
    """The numbers behind the boxes; empty boxes are not measured. Raises NotRead.

    Numbers without a unit are in the shaft's own: inches, or millimetres.
    """
    reader = _Reader(typed, "in" if wanted.system == "inch" else "mm")
    length = reader.near("length", wanted.length, _FARTHEST)
    if length is None and "length" not in reader.errors:
        reader.errors["length"] = "Please type what it measures, face to end of threads."
    runout = {name: reader.up_to(f"runout_{name}", _RUNOUT_MOST) for name in PLACES}
    made = AsMade(
        length=length or Length(0),
        tool=reader.tool(),
        overall=reader.near("overall", wanted.overall, _FARTHEST),
        small_end=reader.near("small_end", wanted.middle or wanted.diameter, _small(wanted)),
        runout={name: size for name, size in runout.items() if size is not None},
        face=reader.up_to("face", _RUNOUT_MOST),
        contact=reader.percent(),
        seat=reader.up_to("seat", _SEAT_MOST),
    )
    if reader.errors:
        raise NotRead(reader.errors)
    return made


def _small(wanted: Accepted) -> Length:
    return _SMALL_OFF if wanted.middle else wanted.diameter


class _Reader:
    """Reads box after box and keeps what is wrong, so that all of it is said at once."""

    def __init__(self, typed: Mapping[str, str], unit: Literal["in", "mm"]) -> None:
        self.typed, self.unit = typed, unit
        self.errors: dict[str, str] = {}

    def text(self, box: str) -> str:
        return self.typed.get(box, "").strip()

    def read(self, box: str) -> Length | None:
        text = self.text(box)
        if not text:
            return None
        if thou := _THOU.fullmatch(text):
            return Length(round(float(thou[1]) * 25_400))
        try:
            return read_length(text, self.unit).length
        except LengthError as error:
            self.errors[box] = error.message
            return None

    def near(self, box: str, wanted: Length, farthest: Length) -> Length | None:
        """A length not absurdly far from what it should be."""
        found = self.read(box)
        if found is not None and abs(found - wanted) > farthest:
            self.errors[box] = (
                f"We read {found.both()}; it should be about {wanted.both()}. Please measure and "
                "type it again, with its unit."
            )
            return None
        return found

    def up_to(self, box: str, most: Length) -> Length | None:
        found = self.read(box)
        if found is not None and found > most:
            self.errors[box] = (
                f"We read {found.both()}, more than can be meant. Please write it like "
                "0.003, 3 thou or 0.08 mm."
            )
            return None
        return found

    def percent(self) -> int | None:
        text = self.text("contact").removesuffix("%").strip()
        if not text:
            return None
        if not text.isascii() or not text.isdecimal() or int(text[:9]) > 100:
            self.errors["contact"] = "Please write the contact in per cent: a number from 0 to 100."
            return None
        return int(text)

    def tool(self) -> str:
        tool = self.typed.get("tool", "") or "tape_short"
        if tool not in TOOLS:
            self.errors["tool"] = "Please choose what the length was taken with."
        return tool if tool in TOOLS else "tape_short"
