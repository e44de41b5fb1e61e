"""Both papers over HTTP: public, cacheable, quick; a draft's sheet for its bearer alone."""

from __future__ import annotations

from datetime import timedelta
from io import BytesIO
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from intake.hand_over.services import hand_over
from tests.intake.paper.geometry import pages
from tests.quotes.paper.papers import read

PAPERS = ("measuring-sheet", "gauges")
DRAFT: dict[str, Any] = {
    "values": {"answers.boat_name_and_station.name": "Biscuit Barrel", "wants": ["shaft"]},
    "opened": [],
    "at": "gap_now",
}

each_paper = pytest.mark.parametrize("name", PAPERS)


@each_paper
def test_anybody_gets_a_pdf_that_may_be_kept(client: Client, name: str) -> None:
    """Without the database: nothing is looked up for it."""
    answer = client.get(reverse(name))
    assert answer.status_code == 200
    assert answer["Content-Type"] == "application/pdf"
    assert answer["Cache-Control"] == "public, max-age=86400"
    assert f'filename="{name}.pdf"' in answer["Content-Disposition"]
    assert answer.content.startswith(b"%PDF-")
    assert not answer.cookies


@each_paper
def test_addresses_are_the_ones_printed(name: str) -> None:
    assert reverse(name) == f"/paper/{name}.pdf"


@each_paper
def test_the_same_paper_is_not_sent_twice(client: Client, name: str) -> None:
    first = client.get(reverse(name))
    again = client.get(reverse(name), headers={"if-none-match": first["ETag"]})
    assert again.status_code == 304
    assert not again.content
    assert client.get(reverse(name)).content == first.content


@each_paper
@pytest.mark.parametrize(
    ("size", "wide", "high"),
    [("letter", 612, 792), ("a4", 595.28, 841.89), ("", 595.28, 841.89), ("a0", 595.28, 841.89)],
)
def test_letter_is_there_for_the_asking(
    client: Client, name: str, size: str, wide: float, high: float
) -> None:
    box = read(client.get(reverse(name), {"size": size}).content).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((wide, high), abs=0.01)


@each_paper
def test_nothing_can_be_posted(client: Client, name: str) -> None:
    assert client.post(reverse(name)).status_code == 405


def test_the_empty_sheet_leads_to_the_guided_path(client: Client) -> None:
    (page,) = pages(client.get(reverse("measuring-sheet")).content)
    assert "http://testserver/guided/" in page.text.replace(" ", "")


@pytest.mark.django_db
def test_a_handed_over_draft_is_filled_in_and_kept_by_nobody(client: Client) -> None:
    handed = hand_over(draft=DRAFT)
    answer = client.get(reverse("measuring-sheet"), {"draft": handed.token})
    assert answer["Cache-Control"] == "private, no-store"
    (page,) = pages(answer.content)
    assert "Biscuit Barrel" in page.text
    assert f"/guided/#h={handed.token}" in page.text.replace(" ", "")
    assert len(read(answer.content).pages) == 1


@pytest.mark.django_db
@pytest.mark.parametrize(
    "code", ["nobody-has-this-one", "../../etc", "x" * 22, "x" * 5000, "\x00" * 22]
)
def test_a_code_that_opens_nothing_gives_an_empty_sheet(client: Client, code: str) -> None:
    answer = client.get(reverse("measuring-sheet"), {"draft": code})
    assert answer.status_code == 200
    assert answer["Cache-Control"] == "no-store"
    assert answer.content == client.get(reverse("measuring-sheet")).content


@pytest.mark.django_db
def test_a_draft_whose_day_is_over_is_not_shown(client: Client) -> None:
    handed = hand_over(draft=DRAFT)
    handed.expires_at = timezone.now() - timedelta(seconds=1)
    handed.save()
    (page,) = pages(client.get(reverse("measuring-sheet"), {"draft": handed.token}).content)
    assert "Biscuit Barrel" not in page.text


@pytest.mark.django_db
def test_the_first_page_links_to_both(client: Client) -> None:
    page = client.get("/").content.decode()
    for name in PAPERS:
        assert f'href="{reverse(name)}"' in page


@each_paper
def test_what_is_sent_is_whole(client: Client, name: str) -> None:
    answer = client.get(reverse(name))
    assert BytesIO(answer.content).getvalue().rstrip().endswith(b"%%EOF")
