"""The page of prices: one part, a whole list with a preview, and what is wrong row by row."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.utils import timezone

from catalog import selectors
from catalog import services as catalog
from catalog.models import PartPrice
from catalog.prices.dating.services import NewPrice
from catalog.prices.selectors import newest_key
from catalog.prices.table import read_prices
from catalog.tables import TableErrors
from tests.catalog.test_services import DEMO
from tests.staff.given import a_manager, a_member, logged_in

pytestmark = pytest.mark.django_db
PAGE, ONE, TABLE = "/catalog/prices/", "/catalog/prices/set/", "/catalog/prices/table/"
DAY = date(2030, 1, 1)


@pytest.fixture(autouse=True)
def _shelf() -> None:
    catalog.load_catalog(DEMO)


@pytest.fixture
def manager() -> Client:
    return logged_in(a_manager())


def tomorrow() -> str:
    return (timezone.localdate() + timedelta(days=1)).isoformat()


def typed(**changes: Any) -> dict[str, Any]:
    given = {"code": "BH-1000", "price": "3,75", "from_day": tomorrow(), "why": "The mill."}
    return {**given, "seen": str(newest_key()), **changes}


def test_a_price_is_set_on_the_page_and_stands_among_those_to_come(manager: Client) -> None:
    answer = manager.post(ONE, typed(), follow=True)
    text = answer.content.decode()
    assert "1 price set." in text
    assert "3.75" in text.split("To come")[1].split("One part")[0]
    part = manager.get("/catalog/changes/BH-1000").content.decode()
    assert "to come" in part
    assert "3.75" in part


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"price": "cheap"}, "such as 3.60"),
        ({"price": "1.23456"}, "such as 3.60"),
        ({"code": "NONE-1"}, "no part NONE-1"),
        ({"from_day": "2020-01-01"}, "That day is over"),
        ({"from_day": "soon"}, "a day like"),
        ({"why": ""}, "write why"),
    ],
)
def test_what_is_wrong_is_said_and_what_was_typed_stays(
    manager: Client, changes: dict[str, str], said: str
) -> None:
    answer = manager.post(ONE, typed(**changes))
    text = answer.content.decode()
    assert answer.status_code == 400
    assert said in text
    assert 'value="BH-1000"' in text or "code" in changes
    assert PartPrice.objects.filter(from_day__gt=timezone.localdate()).count() == 0


def test_an_overtaken_price_is_told_and_not_stored(manager: Client) -> None:
    old = typed(seen="1")
    answer = manager.post(ONE, old)
    assert answer.status_code == 409
    assert "Somebody else set a price of BH-1000" in answer.content.decode()


# --- A whole list -------------------------------------------------------------------------


def test_a_list_is_looked_at_first_and_then_set_whole(manager: Client) -> None:
    text = f"code\tprice\tfrom_day\nBH-1000\t3.75\t{tomorrow()}\nKY-1_4\t6,50\t\n"
    given = {"table": text, "from_day": tomorrow(), "why": "A new list."}
    look = manager.post(TABLE, given)
    shown = look.content.decode()
    assert look.status_code == 200
    assert "2 rows; 2 with another price than today" in shown
    assert "+4.2 %" in shown
    assert not PartPrice.objects.filter(why="A new list.").exists()
    sure = {**given, "sure": "yes", "seen": str(look.context["seen"])}
    assert "2 prices set." in manager.post(TABLE, sure, follow=True).content.decode()
    assert PartPrice.objects.filter(why="A new list.").count() == 2
    assert selectors.stock().part("KY-1_4").price == Decimal(6)  # type: ignore[union-attr]


def test_a_file_is_read_like_a_pasted_table(manager: Client) -> None:
    file = SimpleUploadedFile("prices.csv", "code,price\r\nBH-1000,3.75\r\n".encode("utf-8-sig"))
    given = {"file": file, "from_day": tomorrow(), "why": "A new list."}
    assert "1 row;" in manager.post(TABLE, given).content.decode()


def test_every_fault_is_named_by_row_and_column(manager: Client) -> None:
    text = "code,price,from_day\nBH-1000,dear,\nNONE,1,\nKY-1_4,6,2020-01-01\nKY-1_4,7,soon\n"
    answer = manager.post(TABLE, {"table": text, "from_day": tomorrow(), "why": "A new list."})
    shown = answer.content.decode()
    assert answer.status_code == 400
    for fault in ("Row 2, price", "Row 3, code", "Row 4, from_day", "Row 5, from_day"):
        assert fault in shown
    assert "4 things to put right" in shown
    assert "BH-1000,dear" in shown


@pytest.mark.parametrize(
    "file", [b"\xff\xfe\x00", b"x" * 1_000_001, b""], ids=["no text", "too large", "empty"]
)
def test_a_file_that_is_no_table_is_refused_kindly(manager: Client, file: bytes) -> None:
    given = {"file": SimpleUploadedFile("prices.csv", file), "from_day": tomorrow(), "why": "x"}
    assert manager.post(TABLE, given).status_code == 400


def test_whoever_may_not_set_prices_sees_them(manager: Client) -> None:
    manager.post(ONE, typed())
    maud = logged_in(a_member("maud", "counter"))
    shown = maud.get(PAGE).content.decode()
    assert "BH-1000" in shown
    assert "Set this price" not in shown
    assert maud.post(ONE, typed()).status_code == 403


def test_the_page_costs_the_same_however_many_are_to_come(
    manager: Client, django_assert_num_queries: Any
) -> None:
    manager.post(ONE, typed())
    with django_assert_num_queries(6):  # seat, session, person, rights, prices, newest
        manager.get(PAGE)
    rows = "".join(f"{part.code},9\n" for part in selectors.stock().parts)
    given = {"table": f"code,price\n{rows}", "from_day": tomorrow(), "why": "x", "sure": "yes"}
    assert manager.post(TABLE, given).status_code == 302
    with django_assert_num_queries(6):
        manager.get(PAGE)


# --- The table itself ---------------------------------------------------------------------


def read(text: str) -> tuple[NewPrice, ...]:
    return read_prices(text, known={"A-1", "A-2"}, usual=DAY, today=DAY)


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_cells_are_parted_by_whatever_the_heading_has(mark: str) -> None:
    text = f"\ufeffPrice{mark}CODE{mark}from day\n1.50{mark}A-1{mark}2030-02-01\n"
    assert read(text) == (NewPrice("A-1", Decimal("1.50"), date(2030, 2, 1)),)


@pytest.mark.parametrize(
    "text",
    [
        "", "code\nA-1", "code,price", "code,price\nA-1,1,5", "code,price,tax\nA-1,1,2",
        "code,price\nA-1,1\nA-1,2", "code,code,price\nA-1,A-1,1", "code,price\nA-1,-1",
        "code,price\nA-1,1e3", "code,price\nA-1,NaN", "code,price\n,1",
    ],
)  # fmt: skip
def test_a_table_that_cannot_be_read_is_refused(text: str) -> None:
    with pytest.raises(TableErrors):
        read(text)


def test_a_code_is_known_however_its_letters_are_typed(manager: Client) -> None:
    manager.post(ONE, typed(code="bh-1000"))
    assert PartPrice.objects.filter(code="BH-1000", from_day=tomorrow()).exists()


def test_what_is_wrong_with_a_price_stands_on_top_and_leads_to_its_box(manager: Client) -> None:
    text = manager.post(ONE, typed(price="-5")).content.decode()
    top = text[text.index("<h1>") : text.index("To come")]
    assert 'href="#one-price"' in top
    assert 'id="one-price"' in text
