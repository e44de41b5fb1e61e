"""Bars come in once, are listed, corrected with a reason, and counted by their pieces.

Heats, papers and places are invented.
"""

from __future__ import annotations

import threading
from datetime import timedelta
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import IntegrityError, connection, transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import Length, inches, mm
from catalog.models import Part
from catalog.pieces import services
from catalog.pieces.forms import exact
from catalog.pieces.models import Certificate, Piece
from catalog.pieces.paper import MOST_BYTES, NoScan, read_scan
from catalog.pieces.reading import read_lengths, read_one
from catalog.pieces.selectors import pieces_page
from catalog.services import load_catalog
from staff.errors import Overtaken, Refused
from staff.models import Change
from tests.intake.desk_given import stock_the_shelf
from tests.staff.given import a_member, logged_in

CODE = "BH-1000"


@pytest.fixture
def _shelf(db: None) -> None:
    stock_the_shelf()


def goods(*lengths: str | int, **more: Any) -> services.Delivered:
    lines = tuple(map(inches, lengths or (144,)))
    return services.Delivered(**{"paper": "DN 8812", "lengths": lines, "heat": "H 4471"} | more)


def part(code: str = CODE) -> Part:
    return Part.objects.get(code=code)


def emptied(code: str = CODE) -> Part:
    Part.objects.filter(code=code).update(on_hand=0)
    return part(code)


# --- Goods in -------------------------------------------------------------------------


@pytest.mark.usefixtures("_shelf")
class TestGoodsIn:
    def test_bars_are_pieces_and_are_counted(self) -> None:
        came = services.receive_goods(part=emptied(), goods=goods(144, 144, "96 1/2"))
        assert [piece.length for piece in came.pieces] == [*[inches(144)] * 2, inches("96 1/2")]
        assert {piece.label[:2] for piece in came.pieces} == {"B-"}
        assert (part().on_hand, part().held) == (3, 0)

    def test_the_same_line_of_a_paper_comes_once(self) -> None:
        first = services.receive_goods(part=emptied(), goods=goods(144))
        again = services.receive_goods(part=part(), goods=goods(144, 144))
        assert (again.new, again.pieces) == (False, first.pieces)
        assert services.receive_goods(part=part(), goods=goods(144, line=2)).new
        assert Piece.objects.count() == 2

    def test_a_line_that_was_another_part_is_refused(self) -> None:
        services.receive_goods(part=part(), goods=goods())
        with pytest.raises(Refused, match="received for BH-1000 already"):
            services.receive_goods(part=part("BM-1000"), goods=goods())

    def test_bars_that_were_only_counted_are_listed_with_them_and_said(self) -> None:
        came = services.receive_goods(part=part(), goods=goods())
        assert came.listed == 9
        assert part().on_hand == 10
        assert Piece.objects.filter(heat="").count() == 9

    def test_a_coupling_is_no_piece(self) -> None:
        with pytest.raises(Refused, match="no bar"):
            services.receive_goods(part=part("CP40C-1000"), goods=goods())

    def test_one_certificate_is_kept_for_many_bars(self) -> None:
        scan = read_scan(b"%PDF-1.7 mill certificate")
        services.receive_goods(part=part(), goods=goods(144, 144, certificate=scan))
        services.receive_goods(part=part(), goods=goods(144, line=2, certificate=scan))
        assert Certificate.objects.get().pieces.count() == 3

    def test_a_table_that_is_loaded_counts_no_bar_that_is_a_piece(self) -> None:
        services.receive_goods(part=emptied(), goods=goods(144))
        stock_the_shelf()
        assert part().on_hand == 1
        assert part("BM-1000").on_hand == 5

    def test_listing_what_was_counted_changes_no_count(self) -> None:
        before = dict(Part.objects.values_list("code", "on_hand"))
        assert services.lay_out_pieces() == 75
        assert services.lay_out_pieces() == 0
        assert dict(Part.objects.values_list("code", "on_hand")) == before


@pytest.mark.django_db(transaction=True)
def test_a_delivery_sent_twice_at_once_comes_once() -> None:
    stock_the_shelf()
    said: list[object] = []
    ready = threading.Barrier(2)

    def receive() -> None:
        try:
            ready.wait(timeout=20)
            said.append(services.receive_goods(part=part(), goods=goods(144, 144)).new)
        except Exception as error:  # told below
            said.append(error)
        finally:
            connection.close()

    threads = [threading.Thread(target=receive) for _ in range(2)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(map(str, said)) == ["False", "True"]
    assert part().on_hand == 11


# --- The last guard -------------------------------------------------------------------


@pytest.mark.usefixtures("_shelf")
@pytest.mark.parametrize("free", [-1, inches(144).nm + 1])
def test_the_database_itself_keeps_free_between_nothing_and_all(free: int) -> None:
    services.receive_goods(part=part(), goods=goods())
    with pytest.raises(IntegrityError), transaction.atomic():
        Piece.objects.filter(heat="H 4471").update(free_nm=free)


# --- Correcting -----------------------------------------------------------------------


@pytest.mark.usefixtures("_shelf")
class TestCorrecting:
    def a_bar(self) -> Piece:
        return services.receive_goods(part=emptied(), goods=goods(144)).pieces[0]

    def to(self, piece: Piece, **changes: Any) -> services.Facts:
        now = services.facts_of(piece)
        names = ("length", "heat", "certificate_number", "place", "gone")
        return services.Facts(**{name: getattr(now, name) for name in names} | changes)

    def correct(self, piece: Piece, why: str = "measured", **changes: Any) -> Piece:
        return services.correct_piece(
            piece=piece,
            seen=services.facts_of(piece).mark,
            to=self.to(piece, **changes),
            by=a_member("percival", "manager"),
            why=why,
        )

    def test_a_length_is_corrected_with_a_line_in_the_trail(self) -> None:
        piece = self.correct(self.a_bar(), length=inches(143), heat="H 4472")
        assert (piece.length, piece.free) == (inches(143), inches(143))
        change = Change.objects.filter(record="piece").order_by("-pk")[0]
        assert change.why == "measured"
        assert change.what["heat"] == ["H 4471", "H 4472"]

    def test_a_bar_that_is_lost_is_counted_no_more(self) -> None:
        self.correct(self.a_bar(), gone=True)
        assert part().on_hand == 0

    def test_less_than_is_held_is_refused(self) -> None:
        piece = self.a_bar()
        assert services.hold_some(piece.pk, inches(100))
        piece.refresh_from_db()
        for wrong in ({"length": inches(100) - Length(1)}, {"gone": True}):
            with pytest.raises(Refused, match="is held for accepted shafts"):
                self.correct(piece, **wrong)
        assert self.correct(piece, length=inches(100)).free == Length(0)

    def test_of_two_who_correct_at_once_the_second_is_told(self) -> None:
        piece = self.a_bar()
        self.correct(Piece.objects.get(pk=piece.pk), heat="H 1")
        with pytest.raises(Overtaken):
            self.correct(piece, heat="H 2")


# --- What is typed --------------------------------------------------------------------


def test_lengths_are_read_line_by_line() -> None:
    assert read_lengths("2 x 144\n\n3 m\n96 1/2 in\n", "inch") == (
        *(inches(144), inches(144), mm(3000), inches("96 1/2")),
    )
    assert read_lengths("4000", "mm") == (mm(4000),)


@pytest.mark.parametrize("text", ["0 x 144", "201 x 144", "about a yard", "40 m", "144\nx"])
def test_what_is_no_length_is_named(text: str) -> None:
    with pytest.raises(ValueError, match=text.splitlines()[-1][:5]):
        read_lengths(text, "inch")


@given(st.integers(1, 472 * 64), st.sampled_from(["inch", "mm"]))
def test_a_length_that_is_shown_for_correction_reads_back_exactly(marks: int, system: str) -> None:
    length = Length(marks * 396_875)
    assert read_one(exact(length, system), system) == length


@pytest.mark.parametrize("content", [b"", b"<html>", b"PK\x03\x04", b" %PDF-1.7"])
def test_a_file_that_is_no_certificate_is_refused(content: bytes) -> None:
    with pytest.raises(NoScan, match="neither a PDF nor a JPEG"):
        read_scan(content)


def test_a_certificate_has_two_megabytes_at_most() -> None:
    assert read_scan(b"\xff\xd8\xff" + b"0" * (MOST_BYTES - 3)).kind == "jpeg"
    with pytest.raises(NoScan, match="2 MB"):
        read_scan(b"%PDF-" + b"0" * MOST_BYTES)


# --- Pages ----------------------------------------------------------------------------

SENT = {
    "paper": "DN 8812",
    "line": "1",
    "part": CODE,
    "lengths": "2 x 144 in",
    "heat": "H 4471",
    "certificate_number": "MC 90",
    "place": "rack 2",
}


@pytest.mark.usefixtures("_shelf")
class TestPages:
    @pytest.fixture
    def machinist(self) -> Client:
        return logged_in(a_member("bronagh", "machinist"))

    def test_goods_in_by_its_form_twice(self, machinist: Client) -> None:
        emptied()
        for said in ("In the rack now: B-", "nothing was added"):
            scan = SimpleUploadedFile("cert.pdf", b"%PDF-1.7 x", "application/pdf")
            answer = machinist.post(reverse("goods-in"), {**SENT, "certificate": scan}, follow=True)
            assert said in answer.content.decode()
        piece = Piece.objects.get(pk=Piece.objects.order_by("pk")[0].pk)
        assert Piece.objects.count() == 2
        paper = machinist.get(reverse("piece-certificate", args=[piece.pk]))
        assert (paper.content, paper["Content-Type"]) == (b"%PDF-1.7 x", "application/pdf")
        assert paper["Content-Disposition"].startswith("attachment")

    def test_what_was_typed_is_shown_again_with_what_is_wrong(self, machinist: Client) -> None:
        answer = machinist.post(reverse("goods-in"), {**SENT, "lengths": "2 x 1 yard-ish"})
        text = answer.content.decode()
        assert answer.status_code == 422
        assert "2 x 1 yard-ish" in text
        assert "H 4471" in text
        assert not Piece.objects.exists()

    def test_a_machinist_corrects_nothing(self, machinist: Client) -> None:
        piece = services.receive_goods(part=part(), goods=goods()).pieces[0]
        address = reverse("piece-correct", args=[piece.pk])
        assert machinist.post(address, {}).status_code == 403
        page = machinist.get(reverse("piece", args=[piece.pk])).content.decode()
        assert address not in page

    def test_a_manager_corrects_by_the_form(self) -> None:
        piece = services.receive_goods(part=part(), goods=goods()).pieces[0]
        manager = logged_in(a_member("percival", "manager"))
        address = reverse("piece-correct", args=[piece.pk])
        form = manager.get(address).context["form"]
        said = {**form.initial, "place": "rack 7", "why": "moved"}
        page = manager.post(address, said, follow=True).content.decode()
        assert f"{piece.label} is corrected." in page
        assert "rack 7" in page
        again = manager.post(address, {**said, "place": "rack 8"})
        assert "changed after you opened the page" in again.content.decode()

    def test_the_list_costs_the_same_however_many_pieces(
        self, machinist: Client, django_assert_num_queries: Any
    ) -> None:
        for lines in (1, 40):
            services.receive_goods(part=part(), goods=goods(*[144] * lines, paper=f"DN {lines}"))
            machinist.get(reverse("pieces"))
            with django_assert_num_queries(6):
                machinist.get(reverse("pieces"))

    def test_of_what_is_gone_the_last_comes_first(self) -> None:
        came = services.receive_goods(part=part(), goods=goods(144, 144, 144)).pieces
        now = timezone.now()
        for days, piece in zip((2, 0, 2), came, strict=True):
            gone = now - timedelta(days=days)
            Piece.objects.filter(pk=piece.pk).update(gone_at=gone)
        one, two, three = (piece.pk for piece in came)
        first = pieces_page(show="gone", size=2)
        rest = pieces_page(show="gone", after=first.after, size=2)
        assert [[piece.pk for piece in page.pieces] for page in (first, rest)] == [
            [two, three], [one],
        ]  # fmt: skip

    def test_pages_of_the_list_follow_each_other_without_a_gap(self) -> None:
        services.lay_out_pieces()
        seen: list[int] = []
        after: int | None = None
        while True:
            page = pieces_page(after=after, size=10)
            seen += [piece.pk for piece in page.pieces]
            after = page.after
            if after is None:
                break
        assert len(seen) == len(set(seen)) == 75
        sizes = [Piece.objects.get(pk=pk).part.diameter_nm or 0 for pk in seen]
        assert sizes == sorted(sizes)

    @pytest.mark.parametrize("said", ["after=0", "after=99999999999999999999", "show=x&part=%00"])
    def test_an_odd_address_is_no_fault(self, machinist: Client, said: str) -> None:
        assert machinist.get(f"{reverse('pieces')}?{said}").status_code == 200

    def test_the_download_is_run_by_no_spreadsheet(self, machinist: Client) -> None:
        services.receive_goods(part=part(), goods=goods(heat="=1+1"))
        text = machinist.get(reverse("pieces-csv")).content.decode()
        assert text.startswith("piece,kind,part")
        assert "'=1+1" in text
        assert "3657.600000" in text


@pytest.mark.usefixtures("_shelf")
def test_the_admin_counts_no_bar_that_is_a_piece(admin_client: Client) -> None:
    services.receive_goods(part=emptied(), goods=goods())
    address = reverse("admin:catalog_part_change", args=[part().pk])
    form = admin_client.get(address).context["adminform"].form
    said = {name: form[name].value() or "" for name in form.fields}
    answer = admin_client.post(address, {**said, "on_hand": "7"})
    assert "kept piece by piece" in answer.content.decode()
    assert part().on_hand == 1
    assert load_catalog([]).changed == ()
