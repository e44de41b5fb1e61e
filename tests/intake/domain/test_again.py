"""When to try again, from a word or a day, on the desk's own clock."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta, timezone

import pytest

from intake.domain.again import again_at, again_choices

WEST = timezone(timedelta(hours=-5))
NOW = datetime(2026, 11, 25, 10, 20, tzinfo=WEST)


@pytest.mark.parametrize(
    ("choice", "day", "clock", "moment"),
    [
        ("", None, None, None),
        ("hour", None, None, datetime(2026, 11, 25, 11, 20, tzinfo=WEST)),
        ("afternoon", None, None, datetime(2026, 11, 25, 15, 0, tzinfo=WEST)),
        ("tomorrow", None, None, datetime(2026, 11, 26, 9, 0, tzinfo=WEST)),
        ("at", date(2026, 12, 1), time(17, 30), datetime(2026, 12, 1, 17, 30, tzinfo=WEST)),
        ("at", date(2026, 12, 1), None, datetime(2026, 12, 1, 9, 0, tzinfo=WEST)),
        ("at", None, time(17, 30), datetime(2026, 11, 25, 17, 30, tzinfo=WEST)),
        ("", None, time(17, 30), datetime(2026, 11, 25, 17, 30, tzinfo=WEST)),
        ("hour", date(2026, 12, 1), None, datetime(2026, 11, 25, 11, 20, tzinfo=WEST)),
    ],
)
def test_each_word_is_one_moment(
    choice: str, day: date | None, clock: time | None, moment: datetime | None
) -> None:
    assert again_at(choice, NOW, day, clock) == moment


def test_an_afternoon_that_has_begun_is_not_promised() -> None:
    early, late = again_choices(NOW), again_choices(datetime(2026, 11, 25, 15, 0, tzinfo=UTC))
    assert "afternoon" in dict(early)
    assert "afternoon" not in dict(late)
    assert [value for value, _words in late] == ["", "hour", "tomorrow", "at"]
