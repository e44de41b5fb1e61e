"""A replay as its pages show it: how far it is, what it found, and two of them side by side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from functools import cached_property

from django.conf import settings

from intake.checks import BY_ID
from intake.domain.shares import Share
from intake.limit_rows import kept_words, words_of
from quotes.domain.money import money_text
from quotes.domain.replay import Judged, Money, Tally, money_of, tally_of
from quotes.domain.replay_words import by_check, why
from quotes.replay.models import Replay, ReplaySheet
from quotes.replay.selectors import PAGE

TITLES = {name: check.why.partition("\n")[0].removesuffix(".") for name, check in BY_ID.items()}
ONLY = {
    "": "all that move",
    "held": "held now, let go before",
    "let": "let go now, held before",
    "wrong": "known to have been wrong",
}
_MINUS = "−"


@dataclass(frozen=True, slots=True)
class Figure:
    """One line of the comparison, as text."""

    words: str
    before: str
    after: str
    difference: str


@dataclass(frozen=True, slots=True)
class Change:
    """One limit or rule that the replay changes, in words."""

    words: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a replay is."""

    replay: Replay
    now: datetime

    @property
    def percent(self) -> int:
        """Done, in whole hundredths; 0 while nothing is counted."""
        return 100 * self.replay.done // self.replay.total if self.replay.total else 0

    @property
    def left(self) -> str:
        """How long it may still take, in words; empty while nothing can be said."""
        replay = self.replay
        if not replay.started_at or not replay.done or not replay.goes_on:
            return ""
        gone = (self.now - replay.started_at).total_seconds()
        return about(gone / replay.done * (replay.total - replay.done))


def about(seconds: float) -> str:
    """A time that is still to come, said as roughly as it is known.

    >>> about(4), about(50), about(100), about(4000)
    ('a few seconds', 'less than a minute', 'about 2 minutes', 'about 1 h 7 min')
    """
    if seconds < 10:
        return "a few seconds"
    if seconds < 60:
        return "less than a minute"
    minutes = round(seconds / 60)
    if minutes < 60:
        return f"about {minutes} minutes" if minutes > 1 else "about a minute"
    return f"about {minutes // 60} h {minutes % 60} min"


@dataclass(frozen=True)
class Result:
    """What a replay found, as far as it is."""

    replay: Replay

    @cached_property
    def tally(self) -> Tally:
        """Its counts."""
        return tally_of(self.replay.result)

    @cached_property
    def money(self) -> Money:
        """The counts as money, by what a call cost when it was asked for."""
        return money_of(self.tally, self.replay.call_cost)

    @property
    def changes(self) -> list[Change]:
        """What it changes against the limits it was compared with."""
        base = self.replay.base_values
        new = {**base, **self.replay.changes}
        new = {name: text for name, text in new.items() if text}
        return [
            Change(words_of(name), kept_words(name, base), kept_words(name, new))
            for name in self.replay.changes
        ]

    @property
    def figures(self) -> list[Figure]:
        """The comparison, line by line."""
        tally, money = self.tally, self.money
        return [
            counted("Sheets held, each a call", tally.calls_before, tally.calls_after),
            counted("Of these stopped", tally.stops_before, tally.stops_after),
            counted("Held, nothing wrong known", tally.false_before, tally.false_after),
            counted("Known wrong sheets caught", tally.caught_before, tally.caught_after),
            counted("Known wrong sheets let through", tally.missed_before, tally.missed_after),
            paid("Cost of calls", money.calls_before, money.calls_after),
            paid("Cost of wrong sheets let through", money.wrong_before, money.wrong_after),
            paid("Cost together", money.before, money.after),
        ]

    @property
    def lacking_facts(self) -> int:
        """Sheets from before it was kept what was known beside them."""
        return self.tally.sheets + self.tally.unread - self.tally.facts_kept

    @property
    def caught(self) -> str:
        """How many of the known wrong sheets are caught; a share where there are enough."""
        tally = self.tally
        if not tally.wrong:
            return ""
        before, after = (_share(one) for one in (
            tally.caught_share_before, tally.caught_share_after))  # fmt: skip
        return f"Of {tally.wrong} sheets known to have been wrong, {before} would be held by the " \
               f"limits in force, {after} by the changed ones."  # fmt: skip

    @property
    def checks(self) -> list[Figure]:
        """How many sheets each check holds, what moves most first."""
        return [
            counted(TITLES.get(one.check, one.check), one.before, one.after)
            for one in by_check(self.tally)
        ]


def _share(share: Share) -> str:
    if share.is_small:
        return f"{share.hits}"
    low, high = round(share.low * 100), round(share.high * 100)
    return f"{share.hits} ({round((share.rate or 0) * 100)} %, may be {low} to {high} %)"


def counted(words: str, before: int, after: int) -> Figure:
    """A line of counts.

    >>> counted("Calls", 12, 9).difference
    '−3'
    """
    return Figure(words, f"{before:,}", f"{after:,}", signed(after - before))


def signed(number: int) -> str:
    """A difference with its sign."""
    return f"{'+' if number > 0 else _MINUS if number < 0 else ''}{abs(number):,}"


def paid(words: str, before: Decimal, after: Decimal) -> Figure:
    """A line of money."""
    return Figure(words, _money(before), _money(after), _signed_money(after - before))


def _money(amount: Decimal) -> str:
    return money_text(amount, str(settings.SHOP.get("currency", "")))


def _signed_money(amount: Decimal) -> str:
    sign = "+" if amount > 0 else _MINUS if amount < 0 else ""
    return f"{sign}{_money(abs(amount))}"


# --- Sheets ------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One sheet that the change moves, with why."""

    row: ReplaySheet

    @property
    def why(self) -> list[str]:
        """What came, went or changed its severity."""
        return why(
            _judged(self.row.before, self.row.before_holding),
            _judged(self.row.after, self.row.after_holding),
            TITLES,
        )


def _judged(verdict: str, holding: Sequence[Sequence[str]]) -> Judged:
    return Judged(verdict, tuple((check, severity) for check, severity in holding))


@dataclass(frozen=True, slots=True)
class SheetPage:
    """A page of them; ``after``: where the next begins, none at the end."""

    rows: list[SheetRow]
    after: int | None


def sheet_page(found: Sequence[ReplaySheet]) -> SheetPage:
    """A page of what was read, which is one more than is shown where there are more."""
    shown = found[:PAGE]
    more = shown[-1].submission_id if len(found) > PAGE else None
    return SheetPage([SheetRow(row) for row in shown], more)


CSV_COLUMNS = (
    *("request", "received", "known wrong", "before", "after", "why", "would be asked first"),
)


def csv_row(row: ReplaySheet) -> tuple[object, ...]:
    """One sheet as a line of the table that is sent."""
    asked = row.submission
    return (
        asked.reference,
        f"{asked.received_at:%Y-%m-%d}",
        "yes" if row.wrong else "",
        row.before,
        row.after,
        " ".join(SheetRow(row).why),
        row.question,
    )


# --- Side by side ------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Beside:
    """One figure of two replays: what each change comes to."""

    words: str
    one: str
    two: str


def side_by_side(one: Result, two: Result) -> Iterator[Beside]:
    """The figures of two replays, each as what its change moves."""
    yield Beside("Period", _period(one.replay), _period(two.replay))
    yield Beside("Sheets", f"{one.tally.sheets:,}", f"{two.tally.sheets:,}")
    yield Beside("Compared with", one.replay.base_name, two.replay.base_name)
    for first, second in zip(one.figures, two.figures, strict=True):
        yield Beside(
            first.words,
            f"{first.before} → {first.after} ({first.difference})",
            f"{second.before} → {second.after} ({second.difference})",
        )


def _period(replay: Replay) -> str:
    return f"{replay.first_day} to {replay.last_day}"
