"""Addresses of the shop."""

from __future__ import annotations

from django.urls import path

from quotes.shop import views

urlpatterns = [
    path("shop/", views.shop, name="shop"),
    path("desk/<str:reference>/cut-sheet.pdf", views.cut_sheet, name="cut-sheet"),
]
