"""What is looked for: every word or number asked must stand there, each in one of its ways."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from catalog.domain.readings import ReadLength, Unit
from catalog.domain.tape import LengthError, read_length
from intake.domain import search_words as words
from intake.domain.spelling import head, without_one

LONGEST_QUERY, MOST_GROUPS, MOST_PIECES = 200, 8, 6
_NUMBER_LIKE = re.compile(
    r"[\d¼-¾⅐-⅞][\d\s./,'\"’”″′⁄¼-¾⅐-⅞-]*(?:(?:mm|cm|m|in|inch|inches|ft|foot|feet)\.?[\d\s./'\"⁄-]*)*",
    re.IGNORECASE,
)
_SURELY_LENGTH = re.compile(r"[/'\"’”″′⁄¼-¾⅐-⅞a-z]", re.IGNORECASE)
_PHONE = re.compile(r"[\d\s()+.-]+")
_DECIMAL = re.compile(r"\d+[.]\d+")
_MISHEARD = 9  # a number's last digits, whatever stands for the country before them


@dataclass(frozen=True, slots=True)
class Term:
    """One stored word, or all that begin like it."""

    word: str
    begins: bool = False


Way = tuple[Term, ...]  # all of these
Group = tuple[Way, ...]  # in one of these ways


@dataclass(frozen=True, slots=True)
class Query:
    """All groups must be met. Without any, nothing was asked that could be looked for."""

    groups: tuple[Group, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.groups)

    def also(self, *stored: str) -> Query:
        """The same, and these stored words besides."""
        return Query((*self.groups, *(((Term(word),),) for word in stored)))


def read_query(text: str) -> Query:
    """What somebody typed into the search box; never an error, whatever it is.

    >>> [len(group) for group in read_query("tarpley 58 5/8").groups]
    [1, 2]
    """
    pieces, groups = text[:LONGEST_QUERY].split(), list[Group]()
    while pieces and len(groups) < MOST_GROUPS:
        group, used = _next(pieces)
        groups += [group] if group else []
        pieces = pieces[used:]
    return Query(tuple(dict.fromkeys(groups)))


def _next(pieces: Sequence[str]) -> tuple[Group, int]:
    """The longest reading of what comes next, and how many pieces it took."""
    for count in range(min(MOST_PIECES, len(pieces)), 1, -1):
        span = " ".join(pieces[:count])
        if several := (*_as_length(span), *_as_phone(span)):
            return tuple(dict.fromkeys((*several, *_as_typed(span)))), count
    alone = pieces[0]
    ways = (*_as_word(alone), *_as_length(alone), *_as_phone(alone), *_as_typed(alone))
    return tuple(dict.fromkeys(ways)), 1


# --- The ways -----------------------------------------------------------------------------


def _as_word(piece: str) -> Iterator[Way]:
    found = words.words_of(piece)
    if not found:
        return
    # Only the last is still being typed. What stands before it may be on every request, like FG.
    yield (*(Term(f"w{word}") for word in found[:-1]), _begun("w", found[-1]))
    if len(found) > 1:
        yield (_begun("w", words.squashed(piece)),)


def _begun(kind: str, word: str) -> Term:
    """A short number is meant whole: 5 is not 58."""
    return Term(f"{kind}{word}", begins=len(word) > (2 if word[0].isdigit() else 1))


def _as_typed(span: str) -> Iterator[Way]:
    if any(c.isdigit() for c in span) and words.words_of(span):
        yield (Term(f"t{words.squashed(span)}"),)


def _as_phone(span: str) -> Iterator[Way]:
    if not _PHONE.fullmatch(span) or _DECIMAL.fullmatch(span):
        return
    digits = words.phone_digits(span)[: words.LONGEST_WORD]
    if len(digits) < (5 if " " in span else words.LEAST_DIGITS):
        return
    national = digits.lstrip("0") or digits
    for told in dict.fromkeys((digits, national)):
        yield (Term(f"p{told}", begins=len(told) > 4),)
    if len(national) > _MISHEARD:
        yield (Term(f"p{national[-_MISHEARD:]}"),)


def _as_length(span: str) -> Iterator[Way]:
    if len(span) > 40 or not _NUMBER_LIKE.fullmatch(span):
        return
    if " " in span and not _SURELY_LENGTH.search(span):
        return
    for unit in ("in", "mm"):
        if read := _read(span, unit):
            yield (Term(_as_shown(read, span)),)
            if read.unit_written:
                return


def _read(span: str, unit: Unit) -> ReadLength | None:
    try:
        return read_length(span, unit)
    except LengthError:
        return None


def _as_shown(read: ReadLength, span: str) -> str:
    """Millimetres are meant as finely as they were told: they may be read off a rounded one."""
    places = re.search(r"\d[.,](\d+)\s*(?:mm)?\.?$", span.strip(), re.IGNORECASE)
    fine = len(places[1]) if places else 0
    if read.unit != "mm" or fine > 1:
        return words.exact(read.length)
    return words.to_a_tenth(read.length) if fine else words.to_a_whole(read.length)


# --- Names --------------------------------------------------------------------------------


def read_names(text: str, *, tolerant: bool = False) -> Query:
    """A phone number, a name or a boat, as far as it is typed; tolerant: not quite heard, too."""
    text = text[:LONGEST_QUERY]
    if phone := tuple(_typed_so_far(text)):
        return Query((phone,))
    pieces = words.words_of(text)[:MOST_GROUPS]
    return Query(tuple(_name(word, tolerant) for word in pieces))


def _typed_so_far(text: str) -> Iterator[Way]:
    digits = words.phone_digits(text)
    if _PHONE.fullmatch(text.strip()) and len(digits) >= words.LEAST_DIGITS:
        for told in dict.fromkeys((digits, digits.lstrip("0") or digits)):
            yield (Term(f"p{told[: words.LONGEST_WORD]}", begins=True),)
        if len(digits) > _MISHEARD:
            yield (Term(f"p{digits[-_MISHEARD:]}"),)


def _name(word: str, tolerant: bool) -> Group:
    ways: list[Way] = [(_begun("n", word),)]
    if tolerant:
        ways += [(Term(f"v{heard}"),) for heard in without_one(word)]
        begun = head(word) or (word if len(word) >= 4 else "")
        ways += [(Term(f"h{heard}"),) for heard in (without_one(begun) if begun else ())]
    return tuple(ways)
