"""The manager's page: charts and tables of the same figures, and a file that is only data."""

from __future__ import annotations

import csv
import io
import secrets
from typing import Any

import pytest
from django.http import QueryDict
from django.test import Client

from intake import insights
from intake.models import CallRecord, SheetVersion, Submission
from intake.selectors import months_back
from tests.intake.desk_given import a_person

pytestmark = pytest.mark.django_db


@pytest.fixture
def manager(client: Client) -> Client:
    """A browser with the manager logged in."""
    client.force_login(a_person("manager", "percival"))
    return client


def called(cause: str, times: int = 1) -> None:
    """So many calls this month that had this cause written down."""
    submission = Submission.objects.create(
        reference=secrets.token_hex(4), token=secrets.token_hex(16), verdict="ask", channel="form"
    )
    sheet = SheetVersion.objects.create(
        submission=submission, number=1, body={}, outcome={}, verdict="ask", rules_version="1"
    )
    month = months_back(1)[0]
    call = {"submission": submission, "sheet": sheet, "outcome": "corrected", "month": month}
    CallRecord.objects.bulk_create(
        CallRecord(cause=cause, channel="form", **call) for _time in range(times)
    )


def test_nothing_counted_is_said_in_words(manager: Client) -> None:
    page = manager.get("/insights/by-month/").content.decode()
    assert page.count("Nothing in these months") == 3


def test_chart_and_table_show_the_same_numbers(manager: Client) -> None:
    called("G-ASSUME", 7)
    page = manager.get("/insights/by-month/").content.decode()
    assert page.count('<svg class="chart"') == 1
    assert page.count("gap assumed, not measured") >= 2
    assert ">7</text>" in page
    assert '<td class="num">7</td>' in page
    assert "style=" not in page


def test_small_numbers_have_no_shares(manager: Client) -> None:
    called("G-ASSUME", 15)
    called("X", 4)
    assert "%" not in manager.get("/insights/by-month/").content.decode().split("<main")[1]
    called("X", 1)
    assert "75 %" in manager.get("/insights/by-month/").content.decode()


def test_a_label_is_text_in_the_chart_too(manager: Client) -> None:
    called("<b>x</b> & co", 3)
    page = manager.get("/insights/by-month/").content.decode()
    assert "<b>x" not in page
    assert page.count("&lt;b&gt;x&lt;/b&gt; &amp; co") >= 2


def test_no_cell_of_the_file_is_a_formula(manager: Client) -> None:
    for start in "=+-@\t\r":
        called(f"{start}cmd|'/C calc'")
    answer = manager.get("/insights/by-month/mismatches.csv")
    assert answer["Content-Type"] == "text/csv; charset=utf-8"
    table = list(csv.reader(io.StringIO(answer.content.decode(), newline="")))
    assert table[0] == ["by", "code", "label", "month", "count"]
    cells = [cell for row in table[1:] for cell in row]
    assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@", "\t", "\r"))]
    assert "'=cmd|'/C calc'" in cells


@pytest.mark.parametrize(
    ("asked", "how_many"),
    [
        ("", 6),
        ("from=nonsense&to=2026-99", 6),
        ("from={first}&to={last}", 24),
        ("from={last}&to={first}", 24),
        ("from={last}&to={last}", 1),
        ("to={first}", 1),
    ],
)
def test_the_months_asked_for_are_shown(asked: str, how_many: int) -> None:
    kept = months_back(24)
    query = QueryDict(asked.format(first=kept[0], last=kept[-1]))
    assert len(insights.asked_months(query)) == how_many


def test_the_page_costs_the_same_for_many_months(
    manager: Client, django_assert_max_num_queries: Any
) -> None:
    kept = months_back(24)
    with django_assert_max_num_queries(10):
        manager.get("/insights/by-month/", {"from": kept[0], "to": kept[-1]})
