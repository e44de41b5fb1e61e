"""What is to be made and sent, read from one checked sheet: the facts a price is made of."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any

from catalog.domain.ends import shaft_end
from catalog.domain.lengths import NM_PER_INCH, Length, mm
from catalog.domain.standards import subjects, value
from quotes.domain.choice import NO_CHOICE, Choice

DEFAULT_ALLOY = {"inch": "S20910", "mm": "1.4462"}
# One metal, two names: bars are listed under either.
_SAME_METAL = (frozenset({"S31600", "1.4401"}),)
NOTHING = Length(0)
PLAIN_ALLOYS = frozenset({"S20910", "S31600", "1.4401", "1.4462"})


@dataclass(frozen=True, slots=True)
class Wanted:
    """One part the checks chose: ``code`` of the catalogue and how many."""

    code: str
    kind: str
    quantity: int


@dataclass(frozen=True, slots=True)
class Shaft:
    """The bar to be made. ``length`` runs from the coupling face to the end of the threads,
    ``overall`` from tip to tip; both as they are in the boat. ``left_long``: what is left on at the
    coupling end besides, for a yard to face off. ``thread`` and ``key`` are "" where no table or
    answer says.
    """

    system: str
    diameter: Length
    alloy: str
    layout: str
    length: Length
    overall: Length
    forward_end: str
    thread: str
    key: str
    left_long: Length = NOTHING

    @property
    def sent(self) -> Length:
        """Coupling end to the end of the threads as it leaves us."""
        return self.length + self.left_long

    @property
    def sent_overall(self) -> Length:
        """Tip to tip as it leaves us: what is sawn, carried and weighed."""
        return self.overall + self.left_long

    @property
    def tube_by(self) -> Length:
        """The length that the tube goes by."""
        return self.charged_by + self.left_long

    @property
    def charged_by(self) -> Length:
        """The length that straightening goes by: overall on a pass-through."""
        return self.overall if self.layout == "pass_through" else self.length


@dataclass(frozen=True, slots=True)
class Order:
    """Everything a price is made of. ``shaft`` is None where none is wanted or none computed."""

    wants: frozenset[str]
    shaft: Shaft | None
    parts: tuple[Wanted, ...]
    coupling_comes: bool
    bearing_count: int = 1
    choice: Choice = NO_CHOICE


def read_order(
    body: Mapping[str, Any], record: Mapping[str, Any], choice: Choice = NO_CHOICE
) -> Order:
    """The order behind one sheet: its body as typed and its stored outcome record."""
    if choice.alloy:
        body = {**body, "alloy": choice.alloy}
    answers = body.get("answers") or {}
    parts = tuple(
        Wanted(part["code"], part["kind"], int(part.get("quantity") or 1))
        for part in record.get("parts") or ()
    )
    wants = frozenset(body.get("wants") or ())
    return Order(
        wants=wants,
        shaft=_shaft(body, answers, record, choice) if "shaft" in wants else None,
        parts=parts,
        coupling_comes=_coupling_comes(answers),
        bearing_count=_bearing_count(answers),
        choice=choice,
    )


def _shaft(
    body: Mapping[str, Any],
    answers: Mapping[str, Any],
    record: Mapping[str, Any],
    choice: Choice,
) -> Shaft | None:
    stack = record.get("stack") or {}
    length = stack.get("length")
    nominal = stack.get("nominal") or {}
    if not (record.get("shaft") and length and nominal.get("mm")):
        return None
    system = str(stack.get("system") or "inch")
    diameter = mm(nominal["mm"])
    layout = "pass_through" if "pass_through" in str(stack.get("layout")) else "conventional"
    return Shaft(
        system=system,
        diameter=diameter,
        alloy=str(body.get("alloy") or DEFAULT_ALLOY[system]),
        layout=layout,
        length=mm(length),
        overall=mm(stack.get("overall") or length),
        forward_end="tapered" if _forward_tapered(answers) else "straight",
        thread=standard_thread(system, diameter) or _own_thread(answers),
        key=standard_key(system, diameter),
        left_long=choice.left_long,
    )


def _forward_tapered(answers: Mapping[str, Any]) -> bool:
    bore = answers.get("coupling_bore")
    kind = bore.get("kind") if isinstance(bore, Mapping) else bore
    taper = answers.get("front_taper")
    return kind == "taper" or (isinstance(taper, Mapping) and taper.get("tapered") == "yes")


def _coupling_comes(answers: Mapping[str, Any]) -> bool:
    reuse = answers.get("reuse_coupling")
    return isinstance(reuse, Mapping) and reuse.get("sending") is True


def _bearing_count(answers: Mapping[str, Any]) -> int:
    length = answers.get("bearing_length")
    count = length.get("count") if isinstance(length, Mapping) else None
    text = str(count or 1)
    return int(text) if text.isdecimal() else 1


def _own_thread(answers: Mapping[str, Any]) -> str:
    """The customer's own thread, where no table gives one: spaces and signs made plain."""
    said = answers.get("thread")
    text = said.get("text") if isinstance(said, Mapping) else said
    return re.sub(r"\s+", "", str(text or "")).replace("×", "x")[:20]


def standard_thread(system: str, diameter: Length) -> str:
    """The nut thread of the standard end, or "".

    Sources: SAE J755 (inch sizes), ISO 4566 as far as its rows were seen (25 and 30 mm).

    >>> standard_thread("mm", mm(25)), standard_thread("mm", mm(35))
    ('M16x1.5', '')
    """
    if end := shaft_end(system, diameter):
        return end.thread
    try:
        return value("iso4566_iso8845_shaft_ends", f"{_whole_mm(diameter)} mm", "thread").value
    except KeyError:
        return ""


def standard_key(system: str, diameter: Length) -> str:
    """The size of the key at both ends, or "" where the tables do not give one for both.

    Inch: the SAE J755 keyway. Metric: ISO 773 goes by the shaft at the coupling, and by the taper
    at the propeller (ISO 4566): a 25 mm shaft takes 8x7 at the one, a key 6 wide at the other.

    >>> standard_key("mm", mm(30)), standard_key("mm", mm(25))
    ('8x7', '')
    """
    if system == "mm":
        at_coupling = _iso_key(diameter)
        return at_coupling if at_coupling == _propeller_key(diameter) else ""
    end = shaft_end(system, diameter)
    if end is None:
        return ""
    sixteenths = round(Fraction(end.keyway_width.nm * 16, NM_PER_INCH))
    return str(Fraction(sixteenths, 16))


def _whole_mm(diameter: Length) -> str:
    return diameter.mm_text.rstrip("0").rstrip(".")


def _propeller_key(diameter: Length) -> str:
    """The key in the taper, where a row of ISO 4566 gives it whole."""
    try:
        return value("iso4566_iso8845_shaft_ends", f"{_whole_mm(diameter)} mm", "key").value
    except KeyError:
        return ""


def _iso_key(diameter: Length) -> str:
    for over, up_to, key in _iso_keys():
        if over < diameter <= up_to:
            return key
    return ""


@cache
def _iso_keys() -> tuple[tuple[Length, Length, str], ...]:
    rows = []
    for subject in subjects("iso773_din6885_keys"):
        over, up_to = re.findall(r"\d+", subject)
        size = f"{_key(subject, 'key_width')}x{_key(subject, 'key_height')}"
        rows.append((mm(over), mm(up_to), size))
    return tuple(rows)


def _key(subject: str, quantity: str) -> str:
    return value("iso773_din6885_keys", subject, quantity).value


def same_metal(alloy: str) -> frozenset[str]:
    """All names the catalogue may list this alloy under."""
    for names in _SAME_METAL:
        if alloy in names:
            return names
    return frozenset({alloy})


def alloy_words(alloy: str) -> str:
    """The alloy with the system its number belongs to.

    >>> alloy_words("S20910"), alloy_words("1.4462")
    ('UNS S20910', 'EN 1.4462')
    """
    return f"EN {alloy}" if alloy[:1].isdigit() else f"UNS {alloy}"
