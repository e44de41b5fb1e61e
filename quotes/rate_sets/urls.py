"""Addresses."""

from __future__ import annotations

from django.urls import URLPattern, path

from quotes.rate_sets import views

urlpatterns: list[URLPattern] = [
    path("catalog/rates/", views.rates, name="rates"),
    path("catalog/rates/adopt/", views.adopt, name="rates-adopt"),
]
