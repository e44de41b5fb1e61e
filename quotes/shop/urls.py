"""Addresses of the shop."""

from __future__ import annotations

from django.urls import path

from quotes.shop import converters as converters  # names what an address may hold
from quotes.shop import shaft_views, views

urlpatterns = [
    path("shop/", views.shop, name="shop"),
    path("shop/<request_reference:reference>/", shaft_views.shaft, name="shop-shaft"),
    path("shop/<str:reference>/move/", shaft_views.move, name="shop-move"),
    path("shop/<str:reference>/back/", shaft_views.take_back, name="shop-back"),
    path("shop/<str:reference>/call-off/", shaft_views.call_off, name="shop-call-off"),
    path("shop/<str:reference>/word/", shaft_views.give_word, name="shop-word"),
    path("desk/<str:reference>/cut-sheet.pdf", views.cut_sheet, name="cut-sheet"),
]
