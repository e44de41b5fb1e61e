"""Every check explained, from the code itself: for the page of checks and for docs/checks.md."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from catalog.domain.lengths import Length
from intake.checks import CHECKS
from intake.checks.base import Check
from intake.domain.grading import step
from intake.domain.limit_values import limit_fields, shown
from intake.domain.limit_words import label
from intake.domain.limits import DEFAULT_LIMITS, Limits
from intake.likely import LikelyCause, likely_causes
from intake.read_limits import limits_read, severities_of, weighs_causes

_HAPPENS = {
    "stop": "Stop: nothing is cut to these numbers until a manager has said why it may be.",
    "ask": "Ask: a person asks before anything is quoted.",
    "note": "Note: it is printed, and holds nothing up.",
}
WEIGHED = "Weighed for each sheet, by how often each slip happens and by all that was told."
DOUBT = "A doubt is how far a measurement of its kind is usually off: one standard deviation."
_OFF = "Off: the limits in force leave it out."
_SHORT = {"stop": "a stop", "ask": "a question", "note": "a note"}
_ROWS_SHOWN = 12


@dataclass(frozen=True, slots=True)
class LimitRead:
    """A limit as a check reads it: its words, its value now, and the usual one where it differs."""

    name: str
    words: str
    now: str
    usual: str = ""


@dataclass(frozen=True, slots=True)
class CheckPage:
    """One check for people who do not program."""

    id: str
    title: str
    why: str
    happens: str
    graded: str
    question: str
    source: str
    holds: str
    likely: list[LikelyCause]
    weighed: bool  # the causes are weighed for each sheet
    limits: list[LimitRead]


@dataclass(frozen=True, slots=True)
class Chapter:
    """The checks of one subject."""

    title: str
    checks: list[CheckPage]


More = Callable[[], Iterable[Chapter]]
_more: list[More] = []


def also_checked(more: More) -> More:
    """Register the chapters of a room to the right; they come last."""
    _more.append(more)
    return more


def chapters(limits: Limits = DEFAULT_LIMITS) -> list[Chapter]:
    """Every check in the order a call would take them up, with these limits; then the shop's."""
    found: dict[str, Chapter] = {}
    for check in CHECKS:
        title = _subject(sys.modules[check.look.__module__].__doc__)
        found.setdefault(title, Chapter(title, [])).checks.append(_page(check, limits))
    return [*found.values(), *(chapter for more in _more for chapter in more())]


def _page(check: Check, limits: Limits) -> CheckPage:
    title, _, rest = check.why.partition("\n")
    return CheckPage(
        id=check.id,
        title=title,
        why=" ".join(rest.split()),
        happens=_happens(check, limits),
        graded=_graded(check, limits),
        question=check.ask,
        source=sentence(check.source),
        holds=_and(check.holds),
        likely=likely_causes(
            {"likely": [{"cause": code, "probability": part} for code, part in check.likely]}
        ),
        weighed=weighs_causes(check.look),
        limits=[limit_read(name, limits) for name in limits_read(check.look)],
    )


def limit_read(name: str, limits: Limits) -> LimitRead:
    """One limit of a set, in words, with the code's own value where that is another."""
    now, usual = getattr(limits, name), limit_fields()[name].default
    return LimitRead(
        name, label(name), value_words(now), "" if now == usual else value_words(usual)
    )


def value_words(value: Any) -> str:
    """A limit's value for people; a table by its first rows or by its size.

    >>> value_words((Length(25_400_000), Length(50_800_000)))
    '1 in · 25.4 mm; 2 in · 50.8 mm'
    """
    if isinstance(value, tuple) and len(value) <= _ROWS_SHOWN:
        if all(isinstance(item, Length | float | int) for item in value):
            return "; ".join(shown(item) for item in value)
        if all(isinstance(item, str) for item in value):
            return ", ".join(item.replace("_", " ") for item in value)
        if all(isinstance(item, tuple) for item in value):
            return "; ".join(_row(row) for row in value)
    if hasattr(value, "items") and len(value) <= _ROWS_SHOWN:
        rows = list(value.items())
        if all(isinstance(part, Length | float | int) for row in rows for part in row):
            return "; ".join(f"{shown(key)}: {shown(item)}" for key, item in rows)
    return shown(value) if not hasattr(value, "__len__") or isinstance(value, str) else _size(value)


def _row(row: tuple[Any, ...]) -> str:
    return ", ".join(shown(part) for part in row)


def _size(table: Any) -> str:
    return f"a table of {len(table)} lines, kept with the program" if len(table) else "none yet"


def _happens(check: Check, limits: Limits) -> str:
    """What it makes happen under these limits, with the usual where that is another."""
    own, now = check.severity.value, limits.severities.get(check.id)
    if now is None or now == own:
        return _HAPPENS[own]
    return f"{_HAPPENS.get(now, _OFF)} By itself it is {_SHORT[own]}."


def _graded(check: Check, limits: Limits) -> str:
    """What else it may be, where the rule grades; all its steps move with the usual one."""
    now = limits.severities.get(check.id, check.severity.value)
    if now not in _SHORT:
        return ""
    named = {step(name.lower(), check.severity.value, now) for name in severities_of(check.look)}
    also = [_SHORT[word] for word in _SHORT if word in named - {now}]
    return f"By how much is wrong it may also be {' or '.join(also)}." if also else ""


def _and(words: tuple[str, ...]) -> str:
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last


def sentence(text: str) -> str:
    """A source as a sentence: a capital first, a full stop last."""
    return text[:1].upper() + text[1:] + ("" if text.endswith(".") else ".")


def _subject(text: str | None) -> str:
    """The first line of a file of checks, without what it says to programmers.

    >>> _subject("The propeller end: taper, thread, key; the nut is in `propeller`.")
    'The propeller end: taper, thread, key'
    """
    line = (text or "").strip().partition("\n")[0].removesuffix(".")
    return line.rpartition(";")[0] or line if "`" in line else line


# --- As a paper -----------------------------------------------------------------------


def as_markdown(limits: Limits = DEFAULT_LIMITS) -> str:
    """All of it as one Markdown page; made by ``manage.py describe_checks``, never by hand."""
    book = chapters(limits)
    count = sum(len(chapter.checks) for chapter in book)
    lines = [
        "# What Fairgap checks",
        "",
        f"All {count} checks, in the order in which a call would take them up, the shop's own "
        "last: what each says, why that tends to happen, what it makes happen, the question that "
        "is asked, and the limits it goes by. Where a limit was changed at the desk, the page of "
        f"checks there shows the value in force; here stand the usual ones. {DOUBT} Common "
        "practice means: no published source.",
        "",
        "This page is made from the program by `manage.py describe_checks`.",
    ]
    for chapter in book:
        lines += ["", f"## {chapter.title}"]
        for check in chapter.checks:
            lines += _paper(check)
    return "\n".join(lines) + "\n"


def _paper(check: CheckPage) -> Iterator[str]:
    yield from ("", f"### {check.title}", "")
    if check.why:
        yield from (check.why, "")
    yield f"- **What happens.** {check.happens}{' ' + check.graded if check.graded else ''}"
    yield f"- **It holds** the {check.holds}."
    yield f"- **Question.** {check.question}"
    if check.weighed:
        yield f"- **Causes.** {WEIGHED}"
    elif check.likely:
        told = "; ".join(
            f"{cause.words} ({cause.share})" if cause.share else str(cause.words)
            for cause in check.likely
        )
        yield f"- **Usually** {told}."
    for limit in check.limits:
        yield f"- **Limit.** {limit.words[:1].upper()}{limit.words[1:]}: {limit.now}."
    yield f"- **Source.** {check.source}"
    yield f"- **Called** {check.id} in tables and records."
