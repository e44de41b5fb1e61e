"""The whole sheet as sentences to say on the phone, in the order of the page.

Pure: the words of the page (names of questions, of choices and of parts) are handed in. What was
typed and could not be read is named as such; nothing is passed over in silence.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from catalog.domain import spoken
from catalog.domain.lengths import Length
from intake.domain.sheet import Contact, Reading, Sheet

# How each way of measuring is said after its number.
WAYS: dict[str, str] = {
    "caliper": "by caliper",
    "caliper_in_place": "by caliper, in place",
    "paper_strip": "by a paper strip wrapped round",
    "wrench_32": "by a spanner, to a thirty-second",
    "wrench_16": "by a spanner, to a sixteenth",
    "tape_across": "by tape laid across",
    "tape_short": "by short tape",
    "tape": "by tape, both ends held",
    "tape_helper": "by tape with a helper",
    "tape_one_hand": "by tape, one hand",
    "rod": "by rod",
    "pieces": "in pieces",
    "laser": "by laser",
    "along_old_shaft": "along the old shaft",
    "drill_shank": "by drill shank",
    "rule": "by steel rule",
    "eye": "by eye",
    "papers": "from papers or memory",
    "mark": "as marked on it",
    "plug": "by a plug that slides in",
    "feeler": "by feeler gauge",
}


@dataclass(frozen=True, slots=True)
class PageWords:
    """The page's names: questions in its order, their choices, their parts and what those mean."""

    labels: Mapping[str, str]
    choices: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    parts: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    part_choices: Mapping[tuple[str, str], Mapping[str, str]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Sentence:
    """One thing to say; ``doubtful`` where the listener must settle it."""

    text: str
    doubtful: bool = False


def read_back(
    sheet: Sheet, words: PageWords, unread: Mapping[str, str], given: Mapping[str, Any]
) -> tuple[Sentence, ...]:
    """Everything on the sheet, then who it is for and their number.

    ``unread``: question -> the text that could not be read; it is said that it was not. ``given``:
    the body's answers, for what is said as it was typed (a power, a thread).
    """
    said: list[Sentence] = []
    for slug, label in words.labels.items():
        if slug in unread:
            said.append(_unread(label, unread[slug]))
        elif slug in sheet.states or sheet.has(slug):
            said.extend(Sentence(f"{label}: {text}.", bool(doubt)) for text, doubt in
                        _answer(sheet, slug, words, given.get(slug)))  # fmt: skip
    # What has no box on the page any more is said all the same, by its plain name.
    strangers = [slug for slug in unread if slug not in words.labels]
    said.extend(_unread(slug.replace("_", " ").capitalize(), unread[slug]) for slug in strangers)
    return (*said, *_order(sheet), _who(sheet.contact))


def _unread(label: str, text: str) -> Sentence:
    return Sentence(f"{label}: I have “{text}” and cannot read it. What was it?", doubtful=True)


def _answer(sheet: Sheet, slug: str, words: PageWords, given: Any) -> Iterator[tuple[str, bool]]:
    """The words of one answer; a doubt of the reader is asked right after it."""
    if slug in sheet.states:
        cannot = sheet.states[slug] == "cannot_measure"
        yield ("cannot be measured" if cannot else "does not apply"), False
    elif slug in sheet.readings:
        reading = sheet.readings[slug]
        yield _length(reading), False
        yield from ((doubt.rstrip("."), True) for doubt in reading.doubts)
    elif slug in sheet.choices:
        yield words.choices.get(slug, {}).get(sheet.choices[slug], sheet.choices[slug]), False
    elif slug in sheet.parts:
        yield _parts(sheet, slug, words, given), False
    else:
        named = words.choices.get(slug, {})
        yield ", ".join(_plain(one, sheet, named) for one in sheet.lists[slug]), False


def _length(reading: Reading) -> str:
    """The value and its way; where the tape began elsewhere, and a second reading."""
    system = "in" if reading.unit in ("in", "ft") else "mm"
    text = f"{reading.length.spoken(system)}, {WAYS[reading.method]}"
    if reading.start_mark not in ("", "0"):
        text += f", taken from the {reading.start_mark} mark"
    return f"{text}; the second time {_length(reading.again)}" if reading.again else text


def _parts(sheet: Sheet, slug: str, words: PageWords, given: Any) -> str:
    """An answer in parts; the only part needs no name."""
    told = {name: value for name, value in sheet.parts[slug].items() if value not in (None, "")}
    names, said = words.parts.get(slug, {}), []
    for name, value in told.items():
        typed = given.get(name) if isinstance(given, Mapping) else given
        text = _part(value, typed, sheet, words.part_choices.get((slug, name), {}))
        alone = len(told) == 1 or name in ("name", "text", "method")
        said.append(text if alone else f"{names.get(name, name.replace('_', ' '))} {text}")
    return ", ".join(said)


def _part(value: Any, typed: Any, sheet: Sheet, named: Mapping[str, str]) -> str:
    """One part: what is more than text, a count or a length is said as it was typed."""
    known = isinstance(value, (Length, int, str))
    return _plain(value if known else typed, sheet, named)


def _plain(value: Any, sheet: Sheet, named: Mapping[str, str]) -> str:
    if isinstance(value, Length):
        return value.spoken("mm" if sheet.tape_unit == "mm" else "in")
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int):
        return spoken.whole(value)
    if isinstance(value, tuple):
        return " ".join(_plain(one, sheet, named) for one in value)
    return named.get(str(value)) or WAYS.get(str(value), str(value))


def _order(sheet: Sheet) -> Iterator[Sentence]:
    if sheet.wants:
        yield Sentence(f"You want from us: {_listed(sheet.wants)}.")
    if sheet.job:
        yield Sentence(f"Your order number: {sheet.job}.")


def _who(contact: Contact) -> Sentence:
    """Who it is for, and the number digit by digit, in the groups in which it was given."""
    number = f"on {digits(contact.phone)}" if contact.phone else "and I have no number to ring yet"
    mail = f", by mail {contact.email}" if contact.email else ""
    if not contact.name:
        return Sentence(f"I have no name yet, {number}{mail}.", doubtful=True)
    return Sentence(f"That is for {contact.name}, {number}{mail}.", doubtful=not contact.phone)


def digits(number: str) -> str:
    """A telephone number as it is said.

    >>> digits("+1 202 555 0100")
    'plus one, two zero two, five five five, zero one zero zero'
    """
    groups = "".join(sign if sign.isdigit() or sign == "+" else " " for sign in number).split()
    return ", ".join(" ".join(_DIGIT[sign] for sign in group) for group in groups)


_DIGIT = {str(number): spoken.whole(number) for number in range(10)} | {"+": "plus"}


def _listed(words: Sequence[str]) -> str:
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last
