"""What comes after the quote, in Spanish: versions, "did it fit?", bundles, the passport."""

from __future__ import annotations

from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core import mail
from django.test import Client
from django.urls import reverse
from django.utils import translation

from intake.models import Submission
from intake.said import said
from quotes import services
from quotes.bundles.models import Bundle
from quotes.bundles.services import issue_bundle
from quotes.invoices.making import paper as invoice_paper
from quotes.models import Quote
from quotes.outcomes.services import ask_by_mail
from quotes.passport.models import Passport
from quotes.sending.services import fitting_card
from tests.english import english_left, seen
from tests.quotes.choosing.given import SLOW, chosen
from tests.quotes.given import a_quoter, correct, ticked
from tests.quotes.invoices.given import a_shipped, an_invoice, pay
from tests.quotes.outcomes.given import sent
from tests.quotes.paper.papers import texts
from tests.quotes.shop.shafts import a_made, inspected
from tests.quotes.test_spanish import CONTACT, a_quote, a_request, customer, page_of, spanish
from tests.staff.given import a_member

__all__ = ["customer"]  # the fixture
pytestmark = pytest.mark.django_db


def accepted(**changes: Any) -> Quote:
    """A Spanish quote with its yes, as it stands then."""
    quote = a_quote(**changes)
    where = "status page, 203.0.113.7"
    services.accept_quote(quote=quote, name="W", confirmations=ticked(quote), told_from=where)
    return Quote.objects.select_related("submission", "sheet").get(pk=quote.pk)


def spanish_paper(content: bytes) -> str:
    """What a paper says, once it is sure that it is Spanish."""
    words = " ".join(texts(content))
    assert english_left(words) == []
    return words


def letters() -> dict[str, str]:
    """Every letter that left, its words by its subject; all of it Spanish."""
    found = {}
    for letter in mail.outbox:
        assert isinstance(letter, mail.EmailMultiAlternatives)
        page, _kind = letter.alternatives[0]
        words = f"{letter.subject} {letter.body}".replace("desk.example.net", "")
        assert english_left(words) == []
        assert english_left(seen(str(page))) == []
        found[str(letter.subject)] = words
    return found


# --- Choosing -----------------------------------------------------------------------------


def test_metals_and_options_are_offered_in_spanish(customer: Client) -> None:
    """With the plates told, without them, and where a metal is not for the customer to take."""
    told = page_of(customer, a_quote(**SLOW).submission)
    assert "Factor de seguridad 5,45 a la torsión; para uso de recreo" in told
    assert "18,00" in told
    untold = a_quote(top={"wants": ["shaft", "bearing"], "contact": CONTACT})
    assert "faltan la potencia, el régimen máximo" in page_of(customer, untold.submission)


def test_what_was_chosen_is_in_the_next_version(customer: Client) -> None:
    quote = a_quote()
    assert chosen(quote, "S31600", "rush", "spare:1:NT-3_4-10")
    page = page_of(customer, quote.submission)
    assert "se eligió otra vez el metal" in page
    assert "De repuesto: tuerca y contratuerca" in page
    address = reverse("choose", args=[quote.submission.token])
    typed = {"version": 2, "choose": 1, "alloy": "X", "option": ["spare:1:none", "long:25.4"]}
    assert "no se ofrece para este barco" in spanish(customer.post(address, typed), 400)


# --- Versions -----------------------------------------------------------------------------


def test_a_yes_and_a_version_that_holds_no_more(customer: Client, do_jobs: Any) -> None:
    quote = accepted()
    assert "su página, 203.0.113.7" in page_of(customer, quote.submission)
    do_jobs()
    correct(quote.submission, hub_length={"text": "3", "method": "caliper"})
    do_jobs()
    page = page_of(customer, Submission.objects.get(pk=quote.submission_id))
    assert "ya no vale desde el" in page
    assert "Núcleo de la hélice: al aceptarse, 74,6 mm · 2 15/16 in;" in page
    told = letters()
    assert any("¿No fue usted" in words for words in told.values())
    assert any("ya no vale: versión 1" in words for words in told.values())


def test_everything_that_can_change_after_a_yes_is_said(customer: Client) -> None:
    """Side, layout, parts, place: each named in words, not by the program's name for it."""
    quote = accepted()
    correct(
        quote.submission,
        boat_name_and_station={"name": "Biscuit Barrel", "station": "port"},
        ship_to={"kind": "yard", "country": "Spain", "postcode": "07015"},
    )
    page = page_of(customer, Submission.objects.get(pk=quote.submission_id))
    assert "El lado: al aceptarse, único; ahora, babor." in page


def test_an_order_called_off_is_closed_in_spanish(customer: Client, admin_user: User) -> None:
    quote = accepted()
    services.cancel_order(quote=quote, reason="vendido", by=admin_user)
    page = page_of(customer, Submission.objects.get(pk=quote.submission_id))
    assert "El pedido se anuló el" in page


@pytest.mark.parametrize(
    ("english", "spanish_words"),
    [
        ("Tax 12.5 % on goods, work and freight, of 100.00",
         "Impuestos 12,5 % sobre material, trabajo y transporte, de 100,00"),
        ("Leaves us between 8 and 12 de diciembre, if you accept by 1 de diciembre.",
         "Sale de aquí entre el 8 y el 12 de diciembre, si acepta hasta el 1 de diciembre "
         "inclusive."),
        ("An order over 500 needs a deposit of 50 %. For this quote: 348.54 before we cut.",
         "Un pedido de más de 500 necesita una señal del 50 %. En este presupuesto: 348,54 "
         "antes de cortar."),
        ("Freight, tube 53 in, weight 70 lb (50–150 lb class)",
         "Transporte, tubo 53 in, peso 70 lb (clase de 50–150 lb)"),
        ("Remake of Q-1 at our cost: work", "Repetición de Q-1 a nuestra costa: trabajo"),
        ("5 in left × 3.60 × 0.5", "5 in de resto × 3,60 × 0,5"),
        ("The flange is parted anyway, and you counted 4 bolts.",
         "La brida se abre de todos modos, y usted contó 4 tornillos."),
        ("53.50 less", "53,50 menos"),
    ],
)  # fmt: skip
def test_sentences_made_of_parts(english: str, spanish_words: str) -> None:
    with translation.override("es"):
        assert said(english) == spanish_words


# --- Did it fit? --------------------------------------------------------------------------


def test_whether_it_fitted_is_asked_in_spanish(customer: Client, do_jobs: Any) -> None:
    quote = sent(accepted(), days_ago=8)
    assert "¿Encajó?" in page_of(customer, quote.submission)
    address = reverse("fit", args=[quote.submission.token])
    for typed in (
        {},
        {"fitted": "no", "gap": "3 x"},
        {"fitted": "yes", "gap": "3"},
        {"fitted": "not_yet", "ask_on": "2020-01-01"},
    ):
        spanish(customer.post(address, typed), 400)
    ask_by_mail()
    do_jobs()
    assert "¿Encajó el eje de Biscuit Barrel?" in letters()
    customer.post(address, {"fitted": "yes", "gap": "3/4"})
    assert "Gracias" in page_of(customer, quote.submission)


def test_and_after_a_month(customer: Client, do_jobs: Any) -> None:
    quote = sent(accepted(), days_ago=31)
    assert "Un mes después: ¿encajó?" in page_of(customer, quote.submission)
    ask_by_mail()
    do_jobs()
    assert "Un mes después: ¿encajó el eje de Biscuit Barrel?" in letters()


# --- Several boats ------------------------------------------------------------------------


def a_bundle() -> Bundle:
    """Two boats of one yard that writes Spanish."""
    quotes = [
        a_quote(
            top={"job": "PO 7741"},
            boat_name_and_station={"name": boat, "station": "single"},
            face_to_strut_aft={"text": f"{44 + more} 1/8", "method": "rod"},
            old_length_face_to_thread={"text": str(49 + more), "method": "tape"},
        )
        for more, boat in enumerate(("Fedora", "Biscuit Barrel"))
    ]
    yard = quotes[0].submission.customer
    assert yard is not None
    keys = [one.pk for one in quotes]
    return issue_bundle(customer=yard, job="PO 7741", keys=keys, by=a_quoter())


def test_a_bundle_and_its_paper_and_its_letter(customer: Client, do_jobs: Any) -> None:
    bundle = a_bundle()
    address = reverse("bundle", args=[bundle.token])
    page = spanish(customer.get(address))
    assert "2 barcos, un transporte, un total." in page
    assert "emitido" in page
    assert "una sola vez" in spanish_paper(bytes(bundle.content or b""))
    accept = reverse("bundle-accept", args=[bundle.token])
    spanish(customer.post(accept, {"name": ""}), 400)
    boat = Quote.objects.get(submission__boat_name="Fedora")
    ticks = [f"{boat.pk}.{short}" for short in ticked(boat)]
    customer.post(accept, {"name": "W", "boat": [boat.pk], "confirm": ticks})
    assert "Un barco está aceptado" in spanish(customer.get(address))
    do_jobs()
    assert f"Su presupuesto para varios barcos, {bundle.number}" in letters()


# --- With the shaft -----------------------------------------------------------------------


def test_the_page_behind_the_tag_and_the_fitting_card(customer: Client, settings: Any) -> None:
    settings.LINK_THROTTLE = ""
    quote = a_made(a_member("bronagh", "machinist"))
    Submission.objects.filter(pk=quote.submission_id).update(language="es")
    quote = Quote.objects.select_related("submission", "sheet").get(pk=quote.pk)
    passport = Passport.objects.get(quote=quote)
    spanish(customer.get(reverse("passport", args=[passport.token])))
    assert inspected(quote, User.objects.get(username="bronagh"))
    page = spanish(customer.get(reverse("passport", args=[passport.token])))
    assert "tal como se hizo" in page
    hours = reverse("passport-hours", args=[passport.token])
    spanish(customer.post(hours, {"hours": "many"}), 400)
    customer.post(hours, {"hours": "1240"})
    assert "1240" in spanish(customer.get(reverse("passport", args=[passport.token])))
    card = spanish_paper(fitting_card(quote))
    assert "Hoja de montaje" in card
    assert "19,1 mm · 3/4 in, más o menos" in card


def test_an_invoice_is_in_the_customers_language(customer: Client, admin_user: User) -> None:
    quote = a_shipped(admin_user, top={"contact": CONTACT, "job": "PO 7"})
    pay(quote, admin_user, "100")
    words = spanish_paper(invoice_paper(an_invoice(quote, admin_user), "es"))
    assert "Factura" in words
    assert "Señal y pagos hasta ahora -100,00" in words


def test_an_offer_leaves_in_spanish(customer: Client, do_jobs: Any) -> None:
    request = a_request()
    services.issue_quote(submission_id=request.pk)
    do_jobs()
    assert "Su presupuesto para Biscuit Barrel" in letters()
