"""A choice is a row and a new version; what is agreed is not changed by choosing."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.utils import timezone

from catalog.models import Part
from catalog.services import remove_part, save_part
from intake.jobs import run_job
from intake.models import Job
from intake.services import Overtaken
from quotes import selectors
from quotes.choosing import services
from quotes.choosing.models import Choice as ChoiceRow
from quotes.choosing.selectors import choice_of, chosen_for
from quotes.choosing.services import NotOffered
from quotes.domain.choice import NO_CHOICE, Choice
from quotes.domain.lifecycle import QuoteError, QuoteStatus
from quotes.making import order_of
from quotes.models import Quote, QuoteDocument
from quotes.services import accept_quote, issue_quote, requote
from tests.quotes.choosing.given import SLOW, an_open_quote, chosen
from tests.quotes.given import a_quote, a_quoter, a_submission, correct, stock_the_shelf, ticked

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def standing(quote: Quote) -> Quote:
    found = selectors.latest_quote(quote.submission)
    assert found is not None
    return found


def job_runs() -> None:
    """The job that prices what was left unpriced, a minute later."""
    (job,) = Job.objects.filter(kind="price_choice")
    Job.objects.filter(pk=job.pk).update(due=timezone.now())
    assert run_job(job.pk)


def test_nothing_is_chosen_until_somebody_chooses() -> None:
    assert choice_of(a_quote().submission_id) == NO_CHOICE


def test_a_choice_is_a_new_version_and_the_old_paper_stays() -> None:
    """Bar 130.00 instead of 180.00: 53.50 less with the tax (the trade's worked price)."""
    first = a_quote()
    second = chosen(first, "S31600")
    assert second is not None
    assert (second.version, second.status) == (2, QuoteStatus.ISSUED)
    assert first.total - second.total == Decimal("53.50")
    first.refresh_from_db()
    assert first.status == QuoteStatus.REPLACED
    papers = QuoteDocument.objects.filter(quote__submission=first.submission)
    assert papers.count() == 2
    assert order_of(second).shaft.alloy == "S31600"  # type: ignore[union-attr]


def test_options_cost_what_they_were_offered_for() -> None:
    """65.00 for fitting; a rush of a quarter of 92 + 44 + 24.20 + 65; and 7 % on both."""
    first = an_open_quote()
    second = chosen(first, "", "fit", "rush")
    assert second is not None
    added = {line["code"]: line["amount"] for line in second.lines[-2:]}
    assert added == {"SV-FIT-1": "65.00", "RUSH": "56.30"}
    assert second.goods - first.goods == Decimal("121.30")
    assert order_of(second).choice == Choice(options=frozenset({"fit", "rush"}))


def test_a_choice_says_who_made_it_and_on_which_sheet() -> None:
    quote, maud = an_open_quote(), a_quoter()
    chosen(quote, "", "fit")
    chosen(standing(quote), "S31600", by=maud)
    by_customer, by_staff = ChoiceRow.objects.order_by("pk")
    assert (by_customer.name, by_customer.told_from, by_customer.by) == (
        "Wilmot Tarpley",
        "status page, 203.0.113.7",
        None,
    )
    assert (by_staff.by, by_staff.sheet) == (maud, quote.sheet)


def test_the_same_choice_again_changes_nothing() -> None:
    first = an_open_quote()
    second = chosen(first, "", "fit")
    assert second is not None
    assert chosen(second, "", "fit") == second
    assert chosen(first, "", "fit") == second, "the second click of one form"
    assert (ChoiceRow.objects.count(), Quote.objects.count()) == (1, 2)
    other = a_quote()
    assert chosen(other, "S20910") == other, "the sheet's own metal is no change"


def test_a_price_that_moved_meanwhile_makes_no_version_of_the_same_choice() -> None:
    second = chosen(an_open_quote(), "", "fit")
    assert second is not None
    bar = Part.objects.get(code="BH-1000")
    bar.price = Decimal(4)
    save_part(part=bar)
    assert chosen(second, "", "fit") == second
    third = chosen(second)
    assert third is not None
    assert third.lines[0]["unit_price"] == "4.00", "another choice is priced as things are now"


def test_what_was_chosen_can_be_put_back() -> None:
    first = a_quote()
    second = chosen(first, "S31600")
    assert second is not None
    third = chosen(second, "S20910")
    assert third is not None
    assert (third.version, third.total) == (3, first.total)
    assert choice_of(first.submission_id) == NO_CHOICE


@pytest.mark.parametrize(
    ("alloy", "option", "words"),
    [
        ("", "part:1:BH-1000", "not on offer for this boat: round bar 1 in"),
        ("", "nonsense", "not on offer for this boat: nonsense"),
        ("", "fit", "not on offer for this boat: Fit your coupling"),  # it is in the price
        ("", "heat", "not on offer"),  # there is no other shaft of a pair
        ("N05500", "", "not on offer for this boat: UNS N05500"),  # no bar of 1 in
        ("x" * 200, "", "not on offer"),
    ],
)
def test_what_is_not_on_offer_is_refused_in_words(alloy: str, option: str, words: str) -> None:
    quote = a_quote()
    with pytest.raises(NotOffered, match=words):
        chosen(quote, alloy, *filter(None, [option]))
    assert not ChoiceRow.objects.exists()
    assert standing(quote) == quote


def test_a_metal_that_would_stop_is_chosen_by_nobody() -> None:
    quote = a_quote(**SLOW)
    for by in (None, a_quoter()):
        with pytest.raises(NotOffered, match=r"1\.56"):
            chosen(quote, "S31600", by=by)


def test_a_metal_that_would_be_asked_about_is_chosen_by_staff_alone() -> None:
    quote = a_quote(**{**SLOW, "engine_power": {"text": "45 hp"}})
    with pytest.raises(NotOffered, match="Ring us"):
        chosen(quote, "S31600")
    second = chosen(quote, "S31600", by=a_quoter())
    assert second is not None
    assert second.version == 2
    assert choice_of(quote.submission_id).alloy == "S31600"


# --- Too late, and at the same time -----------------------------------------------------


def test_what_is_accepted_is_not_changed_by_choosing() -> None:
    quote = a_quote()
    accept_quote(quote=quote, name="Wilmot Tarpley", confirmations=ticked(quote))
    for by in (None, a_quoter()):
        with pytest.raises(QuoteError, match="Ring us"):
            chosen(quote, "S31600", by=by)
    assert not ChoiceRow.objects.exists()


def test_what_has_run_out_is_chosen_for_by_staff_alone() -> None:
    quote = a_quote()
    yesterday = timezone.localdate() - timedelta(days=1)
    Quote.objects.filter(pk=quote.pk).update(valid_until=yesterday)
    with pytest.raises(QuoteError, match="run out"):
        chosen(quote, "S31600")
    assert chosen(quote, "S31600", by=a_quoter()) is not None


def test_a_choice_on_an_older_version_is_overtaken() -> None:
    first = an_open_quote()
    chosen(first, "", "fit")
    with pytest.raises(Overtaken):
        chosen(first, "", "rush")
    assert choice_of(first.submission_id).options == {"fit"}


def test_a_yes_between_choice_and_price_stands_and_the_choice_is_undone(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    quote = a_quote()

    def accepted_first(*args: Any, **kwargs: Any) -> Quote:
        accept_quote(quote=quote, name="Wilmot Tarpley", confirmations=ticked(quote))
        return requote(*args, **kwargs)

    monkeypatch.setattr(services, "requote", accepted_first)
    with pytest.raises(QuoteError, match="accepted already"):
        chosen(quote, "S31600")
    assert standing(quote) == quote
    assert choice_of(quote.submission_id) == NO_CHOICE


def test_a_choice_whose_maker_was_killed_is_priced_by_the_job(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    quote = a_quote()

    def killed(*_args: Any, **_kwargs: Any) -> Quote:
        raise SystemExit

    monkeypatch.setattr(services, "requote", killed)
    with pytest.raises(SystemExit):
        chosen(quote, "S31600")
    monkeypatch.undo()
    assert standing(quote) == quote
    job_runs()
    assert standing(quote).version == 2
    assert order_of(standing(quote)).choice.alloy == "S31600"


def test_the_job_finds_nothing_to_do_after_a_choice() -> None:
    chosen(a_quote(), "S31600")
    job_runs()
    assert Quote.objects.count() == 2


# --- Before there is a quote, and on a newer sheet --------------------------------------


def test_staff_choose_before_the_quote_is_made() -> None:
    submission, maud = a_submission(), a_quoter()
    assert services.choose(submission=submission, alloy="S31600", options=(), by=maud) is None
    quote = issue_quote(submission_id=submission.pk)
    assert (quote.version, order_of(quote).choice.alloy) == (1, "S31600")
    with pytest.raises(QuoteError, match="no quote yet"):
        services.choose(submission=a_submission(), alloy="S31600", options=())


def test_what_still_fits_a_newer_sheet_goes_along() -> None:
    quote = an_open_quote()
    chosen(quote, "S31600", "fit")
    correct(quote.submission, hub_length={"text": "2 7/8", "method": "caliper"})
    found = chosen_for(quote.submission_id)
    assert found.choice == Choice("S31600", frozenset({"fit"}))
    assert found.dropped == ()


def test_what_no_longer_fits_a_newer_sheet_is_left_out_aloud() -> None:
    quote = an_open_quote(gland_type="packed", log_id="1 3/8")
    chosen(quote, "", "part:1:PK-3_16", "rush")
    correct(quote.submission, gland_type="face")
    found = chosen_for(quote.submission_id)
    assert found.choice.options == {"rush"}
    (sentence,) = found.dropped
    assert "no longer fits this sheet: gland packing 3/16 in" in sentence
    newer = issue_quote(submission_id=quote.submission_id)
    assert order_of(newer).choice.options == {"rush"}
    chosen(newer, "", "rush")
    assert chosen_for(quote.submission_id).dropped == (), "said until somebody has chosen anew"


def test_a_metal_the_newer_sheet_would_stop_is_left_out_aloud() -> None:
    quote = a_quote()
    chosen(quote, "S31600")
    correct(quote.submission, **SLOW)
    found = chosen_for(quote.submission_id)
    assert found.choice == NO_CHOICE
    assert "UNS S31600" in found.dropped[0]


def test_an_option_the_catalogue_has_lost_is_left_out_aloud() -> None:
    quote = a_quote()
    chosen(quote, "", "spare:1:NT-3_4-10")
    remove_part(part=Part.objects.get(code="NT-3_4-10"))
    found = chosen_for(quote.submission_id)
    assert (found.choice, len(found.dropped)) == (NO_CHOICE, 1)


def test_what_hangs_on_a_price_by_hand_is_chosen_with_it() -> None:
    """A shaft of a size without a row for its ends: the labour is known from the desk alone."""
    for part in Part.objects.filter(code__startswith="SV-PROP"):
        remove_part(part=part)
    submission, maud = a_submission(), a_quoter()
    first = issue_quote(submission_id=submission.pk, by=maud, prices={"SV-PROP": Decimal(92)})
    second = chosen(first, "", "rush")
    assert second is not None
    assert (second.version, second.missing) == (2, [])
    assert second.lines[-1]["amount"] == "56.30"
