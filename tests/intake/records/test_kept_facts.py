"""What was known beside a sheet is stored with it, and is the desk's own."""

from __future__ import annotations

import pytest

from intake.domain.kept_history import KEY, history_again
from intake.domain.reading import read_sheet
from intake.records import selectors
from intake.services import receive_submission
from tests.given import a_body
from tests.intake.desk_given import stock_the_shelf

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def a_side(station: str) -> dict[str, object]:
    return a_body(boat_name_and_station={"name": "Biscuit Barrel", "station": station})


def test_a_second_side_keeps_what_was_known_of_the_first() -> None:
    port = receive_submission(body=a_side("port"))
    known = selectors.history_facts(read_sheet(a_side("starboard")))
    starboard = receive_submission(body=a_side("starboard"))
    kept = starboard.current.outcome[KEY]
    assert kept["sister"] == port.current.pk
    assert history_again(kept, read_sheet(port.current.body)) == known


def test_what_was_known_is_told_to_nobody_outside() -> None:
    asked = receive_submission(body=a_body())
    assert KEY in asked.current.outcome
    assert KEY not in asked.first_answer()
