"""What became of each request: judged, called about, quoted, made, sent, heard of. No database."""

from __future__ import annotations

import copy
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from random import Random
from typing import Any

from catalog.domain.stock import Stock
from intake.domain.history import History
from intake.domain.limits import Limits
from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet, SheetErrors
from intake.domain.verdict import Call, Finding, Severity, Verdict
from intake.evaluate import evaluate, fingerprint
from intake.season.answers import CANNOT, answer
from intake.season.tally import gap_error
from quotes.demo.season.asking import WRONG_BEARING, Asked

MOST_CALLS = 4
# What goes wrong after the sheet: shares of shafts, each with those before it (invented).
_LATE = ((0.006, "S-LENGTH"), (0.011, "F-ALIGN"), (0.014, "T-BENT"), (0.017, "S-KEY"))
_SWAPPED = (("freight_out", "another bearing by van", "31.00"), ("material", "bearing", "44.00"))
REASONS = (
    "the boat is known to us and was measured by our own hand",
    "the customer takes the risk in writing",
    "the yard has done this one before",
    "she has to be in the water on Friday",
)


@dataclass(frozen=True)
class Version:
    """One sheet: when, as typed, as judged, and how it came about."""

    at: datetime
    body: dict[str, Any]
    sheet: Sheet
    verdict: Verdict
    history: History
    reason: str = ""
    said_by: str = ""


@dataclass(frozen=True, slots=True)
class Called:
    """One call about a version."""

    at: datetime
    version: int
    finding: Finding
    outcome: str
    cause: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Misfit:
    """What a case is made of. ``costs``: kind, words, amount; none where nothing is booked yet."""

    at: datetime
    cause: str
    found: str
    part: str
    kind: str
    costs: tuple[tuple[str, str, str], ...]


@dataclass
class Life:
    """One request from its coming to what is known last. ``gap``: as fitted, in inches."""

    asked: Asked
    versions: list[Version]
    calls: list[Called] = field(default_factory=list)
    quoted_at: datetime | None = None
    answer: str = ""  # accepted, declined, lapsed; "" waits
    answered_at: datetime | None = None
    left_on: date | None = None
    told_at: datetime | None = None
    fitted: str = ""
    gap: float | None = None
    misfit: Misfit | None = None

    @property
    def now(self) -> Version:
        """The sheet that counts."""
        return self.versions[-1]

    @property
    def is_released(self) -> bool:
        """Nothing holds it."""
        return self.now.verdict.verdict == Call.RELEASE


def live(asked: Asked, stock: Stock, limits: Limits, now: datetime) -> Life | None:
    """Live one request through; None where the form would not have taken it."""
    rng = Random(f"life {asked.index} {asked.at:%Y%m%d}")  # noqa: S311
    first = _judged(asked.at, asked.body, stock, limits, History(today=asked.at.date()))
    if first is None:
        return None
    life = Life(asked, [first])
    _called_about(life, rng, stock, limits, now)
    if life.is_released:
        _quoted(life, rng, now)
    return life


def _judged(
    at: datetime, body: dict[str, Any], stock: Stock, limits: Limits, history: History, **how: str
) -> Version | None:
    try:
        sheet = read_sheet(body, contact_needed=True)
    except SheetErrors:
        return None
    return Version(at, body, sheet, evaluate(sheet, stock, history, limits), history, **how)


# --- Calls ----------------------------------------------------------------------------


def _called_about(life: Life, rng: Random, stock: Stock, limits: Limits, now: datetime) -> None:
    """Asked until nothing holds it, at most four times; then released over it, or given up."""
    at = life.asked.at
    asked: set[str] = set()
    settled: set[tuple[str, str]] = set()
    for _ in range(MOST_CALLS):
        finding = _to_ask(life.now.verdict, asked)
        if finding is None or life.is_released:
            break
        at = _next_working(at + timedelta(hours=rng.lognormvariate(1.2, 0.9)))
        if at > now:
            return
        if rng.random() < 0.15:
            life.calls.append(Called(at, len(life.versions), finding, "not_reached"))
            at = _next_working(at + timedelta(hours=rng.uniform(3, 30)))
            if at > now:
                return
        asked.add(finding.check)
        _one_call(life, rng, at, finding, settled, stock, limits)
    if not life.is_released:
        _given_up(life, rng, at, settled, stock, limits, now)


def _to_ask(verdict: Verdict, asked: set[str]) -> Finding | None:
    held = [f for f in verdict.findings if f.severity is not Severity.NOTE]
    return next((f for f in held if f.check not in asked), held[0] if held else None)


def _one_call(
    life: Life, rng: Random, at: datetime, finding: Finding, settled: set[tuple[str, str]],
    stock: Stock, limits: Limits,
) -> None:  # fmt: skip
    before = life.now
    body = copy.deepcopy(before.body)
    slug = _slug(before.verdict, finding, body["answers"])
    answer(life.asked.customer, body["answers"], slug)
    changed = _differs(before.body["answers"], body["answers"])
    is_true = life.asked.customer.mistakes and changed
    cause = _cause(life, rng) if is_true else ""
    outcome = "corrected" if is_true else "confirmed"
    if body["answers"].get(slug) == CANNOT:
        outcome = "cannot_measure"
    if outcome == "confirmed":
        settled.add((finding.check, fingerprint(before.sheet, finding.answers)))
    history = History(settled=frozenset(settled), today=at.date())
    made = _judged(at, body, stock, limits, history, reason=f"asked: {finding.check}",
                   said_by=life.asked.person.name)  # fmt: skip
    if made is None:
        return
    life.calls.append(Called(at, len(life.versions), finding, outcome, cause))
    life.versions.append(made)


def _slug(verdict: Verdict, finding: Finding, answers: dict[str, Any]) -> str:
    """What is asked: the question worth most, or the first the finding is about."""
    wanted = [verdict.next_question.answer] if verdict.next_question else []
    return next(
        (slug for slug in (*wanted, *finding.answers) if slug in answers),
        wanted[0] if wanted else finding.answers[0],
    )


def _differs(before: dict[str, Any], after: dict[str, Any]) -> bool:
    return any(_text(before.get(slug)) != _text(value) for slug, value in after.items())


def _text(value: Any) -> Any:
    return value.get("text", value) if isinstance(value, dict) else value


def _cause(life: Life, rng: Random) -> str:
    """The true slip; one in twelve is written down as not known."""
    code = life.asked.customer.mistakes[0].code
    return "X" if code.startswith("Z-") or rng.random() < 0.08 else code


def _given_up(
    life: Life, rng: Random, at: datetime, settled: set[tuple[str, str]], stock: Stock,
    limits: Limits, now: datetime,
) -> None:  # fmt: skip
    at = _next_working(at + timedelta(hours=rng.uniform(1, 20)))
    finding = _to_ask(life.now.verdict, set())
    if at > now or finding is None:
        return
    if rng.random() < 0.5:
        life.calls.append(Called(at, len(life.versions), finding, "withdrawn"))
        return
    held = [f for f in life.now.verdict.findings if f.severity is not Severity.NOTE]
    for one in held:
        settled.add((one.check, fingerprint(life.now.sheet, one.answers)))
        note = rng.choice(REASONS)
        life.calls.append(Called(at, len(life.versions), one, "overridden", note=note))
    history = History(settled=frozenset(settled), today=at.date())
    reason = "released over a finding"
    made = _judged(at, life.now.body, stock, limits, history, reason=reason)
    if made is not None:
        life.versions.append(made)


def _next_working(at: datetime) -> datetime:
    """Within the desk's hours, never on a Sunday."""
    if at.hour >= 18 or at.hour < 8:
        morning = at if at.hour < 8 else at + timedelta(days=1)
        at = morning.replace(hour=8, minute=at.minute, second=at.second)
    return at + timedelta(days=1) if at.weekday() == 6 else at


# --- Quote and what follows -----------------------------------------------------------


def _quoted(life: Life, rng: Random, now: datetime) -> None:
    life.quoted_at = life.now.at + timedelta(seconds=rng.uniform(2, 40))
    if life.quoted_at > now:
        life.quoted_at = None
        return
    chance = rng.random()
    answered = life.quoted_at + timedelta(hours=rng.lognormvariate(2.8, 1.0))
    if chance < 0.62 and answered < now:
        life.answer, life.answered_at = "accepted", answered
        _made(life, rng, answered, now)
    elif chance < 0.74 and answered < now:
        life.answer, life.answered_at = "declined", answered
    elif life.quoted_at < now - timedelta(days=31):
        life.answer, life.answered_at = "lapsed", life.quoted_at + timedelta(days=31)


def _made(life: Life, rng: Random, accepted: datetime, now: datetime) -> None:
    left = (accepted + timedelta(days=rng.uniform(4, 14))).date()
    if left >= now.date():
        return
    life.left_on = left
    told = datetime.combine(left, time(9 + rng.randint(0, 8)), life.asked.at.tzinfo)
    told += timedelta(days=rng.choice((7, 8, 9, 12, 30, 33)))
    misfit = _misfit(life, rng, told)
    if told < now and (misfit or rng.random() < 0.8):
        life.told_at = told
        life.misfit = misfit
        life.fitted = "no" if misfit and misfit.part == "shaft" else "yes"


def _misfit(life: Life, rng: Random, told: datetime) -> Misfit | None:
    """Whether it fits, by the true boat; and the few mistakes of shop, way and fitting."""
    shaft, boat = life.now.verdict.shaft, life.asked.customer.boat
    codes = {part.code for part in life.now.verdict.parts}
    if shaft is not None:
        gap = boat.gap_of(shaft.cut.in_inches)
        life.gap = gap + rng.gauss(0, 0.03) if rng.random() < 0.75 else None
        if not boat.is_fair(gap) or shaft.nominal != boat.size:
            return _of_the_sheet(life, rng, told, gap)
    if WRONG_BEARING in codes and rng.random() < 0.55:
        costs = (
            ("freight_out", "another bearing by van", "31.00"),
            ("material", "bearing", "44.00"),
        )
        return Misfit(told, "C-WRONGDIM", "at_fitting", "bearing", "swap", costs)
    chance = rng.random()
    for most, cause in (
        (0.006, "S-LENGTH"),
        (0.011, "F-ALIGN"),
        (0.014, "T-BENT"),
        (0.017, "S-KEY"),
    ):
        if chance < most and shaft is not None:
            return Misfit(told, cause, "at_fitting", "shaft", "shorten", _costs(rng, "180.00"))
    return None


def _of_the_sheet(life: Life, rng: Random, told: datetime, gap: float) -> Misfit:
    boat, customer = life.asked.customer.boat, life.asked.customer
    code = customer.mistakes[0].code if customer.mistakes else "X"
    known = not code.startswith("Z-") and rng.random() > 0.1 and abs(gap_error(customer)) > 0.05
    is_long = gap > boat.goal
    kind, amount = ("shorten", "180.00") if is_long else ("remake", "470.00")
    return Misfit(told, code if known else "X", "at_fitting", "shaft", kind, _costs(rng, amount))


def _costs(rng: Random, amount: str) -> tuple[tuple[str, str, str], ...]:
    """Booked in the most cases; a few are not yet."""
    return (("labour", "put right", amount),) if rng.random() < 0.85 else ()
