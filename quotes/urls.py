"""Addresses of this room's pages."""

from __future__ import annotations

from django.urls import path

from quotes import desk, desk_told, photo_urls, views
from quotes.bundles import urls as bundle_urls
from quotes.calendar import urls as calendar_urls
from quotes.cases import urls as case_urls
from quotes.choosing import urls as choosing_urls
from quotes.cost_model import urls as cost_urls
from quotes.insight import urls as insight_urls
from quotes.insight.alarms import urls as alarm_urls
from quotes.insight.audit import urls as audit_urls
from quotes.insight.wording import urls as wording_urls
from quotes.inspecting import urls as inspecting_urls
from quotes.invoices import urls as invoice_urls
from quotes.links import views as links
from quotes.outcomes import urls as outcome_urls
from quotes.parcels import urls as parcel_urls
from quotes.passport import urls as passport_urls
from quotes.payments import urls as payment_urls
from quotes.rate_sets import urls as rate_set_urls
from quotes.receiving import urls as receiving_urls
from quotes.replay import urls as replay_urls
from quotes.sending import urls as sending_urls
from quotes.shop import urls as shop_urls
from quotes.stock import urls as stock_urls
from quotes.terms import urls as terms_urls
from quotes.today.views import quotes_today

urlpatterns = [
    path("s/<str:token>/", views.status, name="status"),
    path("s/<str:token>/again/", views.second_reading, name="second-reading"),
    path("s/<str:token>/answer/", views.answer, name="answer"),
    path("s/<str:token>/fit/", views.fit, name="fit"),
    path("s/<str:token>/renew/", links.renew, name="renew-link"),
    path("link-asked/", links.asked, name="link-asked"),
    path("quiet/<str:token>/", links.quiet, name="quiet"),
    path("desk/<str:reference>/link/", links.desk_link, name="desk-link"),
    path("s/<str:token>/quote-<int:version>.pdf", views.quote_pdf, name="quote-pdf"),
    path("s/<str:token>/quote-<int:version>/accept/", views.accept, name="accept"),
    path("s/<str:token>/quote-<int:version>/decline/", views.decline, name="decline"),
    *photo_urls.urlpatterns,
    *shop_urls.urlpatterns,
    *rate_set_urls.urlpatterns,
    *terms_urls.urlpatterns,
    *choosing_urls.urlpatterns,
    *bundle_urls.urlpatterns,
    *payment_urls.urlpatterns,
    *stock_urls.urlpatterns,
    *inspecting_urls.urlpatterns,
    *sending_urls.urlpatterns,
    *parcel_urls.urlpatterns,
    *passport_urls.urlpatterns,
    *outcome_urls.urlpatterns,
    *case_urls.urlpatterns,
    *receiving_urls.urlpatterns,
    *invoice_urls.urlpatterns,
    *calendar_urls.urlpatterns,
    *alarm_urls.urlpatterns,
    *audit_urls.urlpatterns,
    *cost_urls.urlpatterns,
    *wording_urls.urlpatterns,
    *insight_urls.urlpatterns,
    *replay_urls.urlpatterns,
    path("desk/today/quotes/", quotes_today, name="quotes-today"),
    path("desk/check/price/", desk.desk_price, name="desk-price"),
    path("desk/<str:reference>/quote-state/", desk.quote_state_of, name="quote-state"),
    path("desk/<str:reference>/quote/", desk.desk_issue, name="desk-issue"),
    path("desk/<str:reference>/quote/again/", desk_told.desk_requote, name="desk-requote"),
    path("desk/<str:reference>/quote/mail/", desk_told.desk_mail_again, name="desk-mail-again"),
    path("desk/<str:reference>/quote/<int:version>/yes/", desk_told.desk_accept, name="desk-yes"),
    path("desk/<str:reference>/quote/<int:version>/no/", desk_told.desk_decline, name="desk-no"),
    path(
        "desk/<str:reference>/quote/<int:version>/cancel/",
        desk_told.desk_cancel,
        name="desk-cancel",
    ),
]
