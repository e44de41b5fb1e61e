"""Addresses of this room's pages."""

from __future__ import annotations

from django.urls import path

from quotes import desk, views

urlpatterns = [
    path("s/<str:token>/", views.status, name="status"),
    path("s/<str:token>/again/", views.second_reading, name="second-reading"),
    path("s/<str:token>/quote-<int:version>.pdf", views.quote_pdf, name="quote-pdf"),
    path("s/<str:token>/quote-<int:version>/accept/", views.accept, name="accept"),
    path("s/<str:token>/quote-<int:version>/decline/", views.decline, name="decline"),
    path("desk/check/price/", desk.desk_price, name="desk-price"),
    path("desk/<str:reference>/quote/", desk.desk_issue, name="desk-issue"),
]
