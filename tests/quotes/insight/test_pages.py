"""Every page of the manager's: with data and without, filtered, downloaded, and asked nonsense."""

from __future__ import annotations

import io
import re
from datetime import date
from decimal import Decimal

import openpyxl
import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from quotes.insight.pages.all_of_them import QUESTIONS
from quotes.models import BarFact
from quotes.stock.models import Hold
from tests.quotes.given import a_quote, stock_the_shelf
from tests.quotes.insight.given import a_fact, a_flag, a_mistake, a_shipped, counted
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db
NAMES = ["insight-overview", *(one.url_name for one in QUESTIONS)]
SPAN = "?from=2026-03&to=2026-05"
LISTED = '<th scope="row"><a href="/desk/'


@pytest.fixture
def percival(client: Client) -> Client:
    return logged_in(a_member("percival", "manager"))


@pytest.fixture
def some() -> None:
    """A little of everything in April."""
    first = a_fact(answered=["gap_now"], flags=1, first_verdict="ask", caught="call",
                   machine_seconds=4, desk_seconds=3600, customer_seconds=0,
                   lacking=["bearing: shell 1 5/8 in"])  # fmt: skip
    a_flag(first, "gap-to-blade", was_right=True, answer="gap_now")
    a_mistake(first, "D-CBACK", date(2026, 4, 11), answer="gap_now", cost=Decimal("12.00"))
    a_mistake(first, "D-CBACK", date(2026, 4, 12), again="q", answer="gap_now")
    a_shipped(True, z=0.3, stated_fit=0.99)
    a_shipped(False, stated_fit=0.99, over=["known boat"])
    a_shipped(None)
    counted()


@pytest.mark.parametrize("name", NAMES)
def test_a_page_without_data_says_so(percival: Client, name: str) -> None:
    page = percival.get(reverse(name))
    assert page.status_code == 200
    assert "Nothing is counted yet" in page.content.decode()


@pytest.mark.usefixtures("some")
@pytest.mark.parametrize("name", NAMES)
def test_a_page_costs_the_same_however_much_there_is(percival: Client, name: str) -> None:
    percival.get(reverse(name) + SPAN)
    with CaptureQueriesContext(
        connection,
    ) as few:
        percival.get(reverse(name) + SPAN)
    for _ in range(5):
        a_mistake(a_shipped(True), "D-HUB", date(2026, 4, 13), again="c")
    counted()
    with CaptureQueriesContext(connection) as more:
        percival.get(reverse(name) + SPAN)
    assert len(more) == len(few) <= 18


@pytest.mark.usefixtures("some")
def test_silence_is_no_success(percival: Client) -> None:
    page = percival.get(reverse("insight-fit") + SPAN).content.decode()
    assert "1 of 2" in page  # of the two that were heard of
    assert "2 of 3" in page  # heard of, of those that left


@pytest.mark.usefixtures("some")
def test_a_filter_that_nothing_meets_leaves_nothing(percival: Client) -> None:
    page = percival.get(reverse("insight-fit") + SPAN + "&method=tape_one_hand").content.decode()
    assert "Nothing in these months" in page
    page = percival.get(reverse("insight-fit") + SPAN + "&method=rod&part=s").content.decode()
    assert "1 of 2" in page


@pytest.mark.usefixtures("some")
@pytest.mark.parametrize("name", ["insight-overview", "insight-again", "insight-behind"])
@pytest.mark.parametrize(
    "query",
    ["from=2026-99&to=%00", "from=2026-05&to=2026-03", "part=xyz&channel=%27%3B--",
     "method=" + "x" * 9000,
     "of=flag&key=%00%00&after=99999999999999999999999", "of=z&key=nan", "of=fit_stated&key=99",
     "of=fit_stated&key=%C2%B2", "of=nothing&key=%25", "of=over&key=%22%5B%25_"],
)  # fmt: skip
def test_nonsense_in_the_address_is_left_out(percival: Client, name: str, query: str) -> None:
    assert percival.get(f"{reverse(name)}?{query}").status_code == 200


@pytest.mark.usefixtures("some")
@pytest.mark.parametrize(
    ("of", "key", "many"),
    [
        ("flag", "gap-to-blade", 1), ("mismatch", "D-CBACK", 1), ("mismatch", "D", 1),
        ("born", "gap_now", 1), ("caught", "call", 1), ("shipped", "", 3),
        ("shipped", "misfit", 1), ("shipped", "silent", 1), ("received", "", 4),
        ("over", "known boat", 1), ("over", "known", 0), ("received ", "", 0), ("z", "4", 0),
        ("fit_stated", "3", 2), ("z", "0.0", 1), ("lacking", "bearing: shell 1 5/8 in", 1),
        ("mismatch", "D-HUB", 0),
    ],
)  # fmt: skip
def test_behind_a_number_stand_its_requests(percival: Client, of: str, key: str, many: int) -> None:
    page = percival.get(reverse("insight-behind") + SPAN, {"of": of, "key": key, "from": "2026-03",
                                                           "to": "2026-05"})  # fmt: skip
    assert page.content.decode().count(LISTED) == many


@pytest.mark.parametrize("words", ["bearing: 1 in · 25.4 mm", 'he said "now" \\o/', "100 % _sure_"])
def test_words_are_found_as_they_stand_and_only_whole(percival: Client, words: str) -> None:
    a_fact(lacking=[words])
    a_fact(lacking=[f"{words}, shell 1 5/8 in", "x"])
    a_shipped(True, over=[words])
    a_shipped(True, over=["x" + words])
    for of in ("lacking", "over"):
        told = {"of": of, "key": words, "from": "2026-03", "to": "2026-05"}
        page = percival.get(reverse("insight-behind"), told).content.decode()
        assert page.count(LISTED) == 1


def test_a_list_behind_bars_keeps_to_the_filter(percival: Client) -> None:
    stock_the_shelf()
    quote = a_quote()
    for line, method in (("shaft", "rod"), ("other", "tape_one_hand")):
        hold = Hold.objects.create(quote=quote, line=line, what="a bar", state="taken")
        BarFact.objects.create(
            hold=hold, fact=a_fact(method=method), month="2026-04", size="1 in", used_nm=1
        )
    told = {"of": "bar_used", "key": "1 in", "from": "2026-03", "to": "2026-05"}
    for asked, many in (({}, 2), ({"method": "rod"}, 1)):
        page = percival.get(reverse("insight-behind"), {**told, **asked}).content.decode()
        assert page.count(LISTED) == many


@pytest.mark.usefixtures("some")
def test_a_list_says_what_it_is_of_and_a_month_leads_to_its_own(percival: Client) -> None:
    page = percival.get(reverse("insight-fit") + SPAN + "&method=rod").content.decode()
    link = "of=shipped&amp;key=&amp;from=2026-04&amp;to=2026-04"
    assert link in page
    said = percival.get(f"{reverse('insight-behind')}{SPAN}&method=rod&{link.replace('amp;', '')}")
    assert "Orders that left." in said.content.decode()
    assert "Apr 2026 to Apr 2026, measured by rod" in said.content.decode()
    assert said.content.decode().count(LISTED) == 3


@pytest.mark.usefixtures("some")
@pytest.mark.parametrize("name", NAMES)
def test_below_twenty_no_rate_is_a_percentage(percival: Client, name: str) -> None:
    page = percival.get(reverse(name) + SPAN).content.decode()
    told = re.findall(r'insight-value">\d+ of \d+</span>(?:[^<]|<span class="help">)*may be', page)
    assert not told
    if name == "insight-fit":
        assert "too few" in page
        assert "50 %" not in page.partition("</figure>")[2]


@pytest.mark.usefixtures("some")
@pytest.mark.parametrize("one", QUESTIONS, ids=lambda one: one.slug)
def test_what_is_on_the_screen_is_in_the_files(percival: Client, one: object) -> None:
    slug = one.slug  # type: ignore[attr-defined]
    text = percival.get(reverse("insight-csv", args=[slug]) + SPAN).content.decode("utf-8-sig")
    book = openpyxl.load_workbook(
        io.BytesIO(percival.get(reverse("insight-xlsx", args=[slug]) + SPAN).content)
    )
    page = percival.get(reverse(f"insight-{slug}") + SPAN).content.decode()
    for sheet in book.worksheets:
        heading = [cell.value for cell in next(sheet.iter_rows())]
        if sheet.max_row == 1:
            continue  # the page says that there is nothing
        assert all(f">{name}</th>" in page for name in heading)
        assert heading[0] in text


def test_words_of_customers_are_no_formula(percival: Client) -> None:
    a_shipped(False, over=['=HYPERLINK("http://example.org")'])
    counted()
    text = percival.get(reverse("insight-csv", args=["overrides"]) + SPAN).content.decode(
        "utf-8-sig"
    )
    assert "'=HYPERLINK" in text
    content = percival.get(reverse("insight-xlsx", args=["overrides"]) + SPAN).content
    cells = [
        c for row in openpyxl.load_workbook(io.BytesIO(content)).active.iter_rows() for c in row
    ]
    assert [c.data_type for c in cells if "HYPERLINK" in str(c.value)] == ["s"]


@pytest.mark.parametrize("name", NAMES)
def test_the_counter_sees_no_costs(name: str) -> None:
    assert logged_in(a_member("maud", "counter")).get(reverse(name)).status_code == 403
