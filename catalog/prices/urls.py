"""Addresses."""

from __future__ import annotations

from django.urls import URLPattern, path

from catalog.prices import views

urlpatterns: list[URLPattern] = [
    path("catalog/prices/", views.prices, name="prices"),
    path("catalog/prices/set/", views.set_one, name="prices-set"),
    path("catalog/prices/table/", views.set_table, name="prices-table"),
]
