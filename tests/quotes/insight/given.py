"""Facts for tests of the manager's pages, each with only what the test is about."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import Any

from intake.models import Submission
from quotes.insight.counting.services import count_months, month_is_behind
from quotes.insight.models import FlagFact, MismatchFact, RequestFact

CIRCUMSTANCES = {"channel": "form", "method": "rod", "layout": "inline", "role": "owner"}


def a_fact(*, month: str = "2026-04", **told: Any) -> RequestFact:
    """One request that came in a month, with a stored request behind it."""
    at = datetime.fromisoformat(f"{month}-10").replace(tzinfo=UTC)
    number = Submission.objects.count() + 1
    submission = Submission.objects.create(
        reference=f"FG-{number:06d}", token=f"token-{number}", verdict="release", channel="form",
        received_at=at, boat_name="Biscuit Barrel", body_digest="",
    )  # fmt: skip
    shown = {**CIRCUMSTANCES, "parts": "s", "month": month, "received_at": at, **told}
    return RequestFact.objects.create(submission=submission, **shown)


def a_shipped(fits: bool | None, *, month: str = "2026-04", **told: Any) -> RequestFact:
    """An order that left in a month."""
    left = date.fromisoformat(f"{month}-20")
    return a_fact(month=month, shipped_on=left, shipped_month=month, fits=fits, **told)


def a_flag(fact: RequestFact, check: str, was_right: bool | None, **told: Any) -> FlagFact:
    shown = {**_under(fact), "month": fact.month, "asked": was_right is not None, **told}
    return FlagFact.objects.create(fact=fact, check_id=check, was_right=was_right, **shown)


def a_mistake(fact: RequestFact, cause: str, on: date, **told: Any) -> MismatchFact:
    shown = {**_under(fact), "month": f"{on:%Y-%m}", "found": "before_quote", **told}
    return MismatchFact.objects.create(fact=fact, cause=cause, on=on, **shown)


def _under(fact: RequestFact) -> dict[str, str]:
    return {name: getattr(fact, name) for name in (*CIRCUMSTANCES, "parts")}


def counted(*months: str) -> None:
    """Count those months."""
    month_is_behind(months or ("2026-04",))
    count_months()
