"""Addresses."""

from __future__ import annotations

from django.urls import URLPattern, path

from quotes.choosing.views import choose_at_desk, choose_on_page

urlpatterns: list[URLPattern] = [
    path("s/<str:token>/choose/", choose_on_page, name="choose"),
    path("desk/<str:reference>/choose/", choose_at_desk, name="desk-choose"),
]
