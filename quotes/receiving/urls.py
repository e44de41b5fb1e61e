"""Addresses of customers' own parts."""

from __future__ import annotations

from django.urls import path

from quotes.receiving import views

urlpatterns = [
    path("desk/parts/", views.awaited, name="awaited-parts"),
    path("desk/<str:reference>/parts/", views.parts, name="own-parts"),
]
