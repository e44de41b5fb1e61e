"""What a page of the manager's is made of, and how its numbers are said."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import Decimal
from functools import cached_property
from typing import Any

from django.utils.formats import date_format
from django.utils.safestring import SafeString, mark_safe

from intake.checks import CHECKS
from intake.desk_words import LABELS
from intake.domain.causes import CAUSES
from intake.domain.shares import Share
from quotes.cost_model.selectors import costs_on
from quotes.domain.cost_model import CostModel
from quotes.domain.insight.measures import Counts, Measure
from quotes.domain.insight.targets import Standing
from quotes.domain.money import money_text
from quotes.insight import selectors
from quotes.insight.asked import Asked
from quotes.selectors import rates

FAMILIES = {
    "U": "unit",
    "R": "reading",
    "D": "datum",
    "G": "gap",
    "P": "propeller seat",
    "E": "estimate",
    "I": "identification",
    "O": "old part wrong",
    "B": "boat changed or moved",
    "C": "catalogue",
    "K": "desk",
    "S": "shop",
    "T": "transit",
    "F": "fitting",
    "X": "not known",
}


@dataclass(frozen=True, slots=True)
class Figure:
    """One headline: what it is, its value, what it may really be, and how it stands to a target."""

    words: str
    value: str
    between: str = ""
    target: str = ""
    standing: Standing | None = None


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a table. ``behind``: the measure and key that list its requests, if any;
    ``month``: of that month alone.
    """

    cells: tuple[str, ...]
    behind: tuple[str, str] | None = None
    month: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """A table with its heading. ``words`` tells how many of the first columns are words."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[Row, ...]
    words: int = 1
    note: str = ""


@dataclass(frozen=True, slots=True)
class Chart:
    """A picture; its table stands on the same page."""

    title: str
    svg: str

    @property
    def picture(self) -> SafeString:
        """As markup."""
        return mark_safe(self.svg)  # noqa: S308 - the charts escape every text


@dataclass(frozen=True, slots=True)
class View:
    """Everything a page shows."""

    figures: tuple[Figure, ...] = ()
    charts: tuple[Chart, ...] = ()
    tables: tuple[Table, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Given:
    """What a page is made from: what was asked, and whatever it reads of the counts."""

    asked: Asked
    measures: tuple[Measure, ...]
    extra: dict[str, Any] = field(default_factory=dict)

    @cached_property
    def counts(self) -> Counts:
        """One query for all measures."""
        return selectors.counts(self.asked, self.measures)

    @cached_property
    def costs(self) -> CostModel:
        """Costs and targets as they are now."""
        return costs_on()

    @property
    def months(self) -> tuple[str, ...]:
        """Every month asked for, oldest first."""
        return months_between(self.asked.first, self.asked.last)


@dataclass(frozen=True, slots=True)
class Question:
    """One page. ``about`` defines what is counted; ``headline`` is what the overview shows."""

    slug: str
    question: str
    about: str
    measures: tuple[Measure, ...]
    view: Callable[[Given], View]

    @property
    def url_name(self) -> str:
        """The name of its address."""
        return f"insight-{self.slug}"


# --- Saying numbers -------------------------------------------------------------------


def percent(share: float | None) -> str:
    """A share for people: whole above ten, one place below, two below one. What is less than all
    is not said to be all.

    >>> percent(0.9612), percent(0.05), percent(0.0032), percent(0.998), percent(None)
    ('96 %', '5 %', '0.32 %', '99.8 %', '—')
    """
    if share is None:
        return "—"
    places = 0 if share >= 0.1 else 1 if share >= 0.01 else 2
    if 0.995 <= share < 1:
        places = 1 if share < 0.9995 else 2
    text = f"{share * 100:.{places}f}"
    return f"{text.rstrip('0').rstrip('.') if '.' in text else text} %"


def rate(share: Share) -> str:
    """A share, or below twenty the counts themselves."""
    if not share.of:
        return "—"
    return f"{share.hits} of {share.of}" if share.is_small else percent(share.rate)


def span(share: Share) -> str:
    """What a share may really be (95 %); below twenty no percentages."""
    if not share.of:
        return ""
    if share.is_small:
        return "too few"
    return f"{percent(share.low)} to {percent(share.high)}"


def figure(
    words: str, share: Share, target: Decimal | None = None, standing: Standing | None = None
) -> Figure:
    """A share as a headline."""
    aimed = f"{percent(float(target))}" if target is not None else ""
    between = "" if share.is_small else span(share)
    return Figure(words, rate(share), between, aimed, standing)


def money(cents: int) -> str:
    """Money in the shop's currency."""
    return money_text(Decimal(cents) / 100, rates().currency)


def how_long(seconds: float | None) -> str:
    """A time for people.

    >>> how_long(40), how_long(5400), how_long(200000), how_long(None)
    ('40 s', '1.5 h', '2.3 days', '—')
    """
    if seconds is None:
        return "—"
    for unit, size in (("days", 86400), ("h", 3600), ("min", 60)):
        if seconds >= size:
            text = f"{seconds / size:.1f}".rstrip("0").rstrip(".")
            return f"{text} {unit}"
    return f"{seconds:.0f} s"


def cause_label(code: str) -> str:
    """A cause in words, with its code."""
    words = CAUSES.get(code)
    return f"{words} ({code})" if words else code


def question_label(slug: str) -> str:
    """A question as the desk names it."""
    return str(LABELS.get(slug) or slug.replace("_", " ").capitalize())


_WHY = {check.id: check.why.partition("\n")[0] for check in CHECKS}


def check_label(name: str) -> str:
    """A check by its name and what it says."""
    why = _WHY.get(name)
    return f"{name}: {why}" if why else name


def months_between(first: str, last: str) -> tuple[str, ...]:
    """Every month from one to another, both included.

    >>> months_between("2025-11", "2026-02")
    ('2025-11', '2025-12', '2026-01', '2026-02')
    """
    numbers = [
        int(year) * 12 + int(month) - 1 for year, month in (first.split("-"), last.split("-"))
    ]
    return tuple(f"{n // 12}-{n % 12 + 1:02d}" for n in range(numbers[0], numbers[1] + 1))


def month_short(month: str) -> str:
    """The month on an axis, with its year, for an axis leaves some months out."""
    return date_format(first_day(month), "M ’y")


def month_long(month: str) -> str:
    """The month in a table."""
    return date_format(first_day(month), "M Y")


def first_day(month: str) -> date:
    """The first day of a month."""
    return date.fromisoformat(f"{month}-01")


def last_day(month: str) -> date:
    """The last day of a month."""
    return (first_day(month).replace(day=28) + timedelta(days=4)).replace(day=1) - timedelta(days=1)


def table_rows(rows: Iterable[tuple[tuple[str, ...], tuple[str, str] | None]]) -> tuple[Row, ...]:
    """Rows of cells with what lies behind each."""
    return tuple(Row(cells, behind) for cells, behind in rows)
