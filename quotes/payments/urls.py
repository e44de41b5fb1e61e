"""Addresses of payments."""

from __future__ import annotations

from django.urls import URLPattern, path

from quotes.payments import views

urlpatterns: list[URLPattern] = [
    path("desk/<str:reference>/payments/", views.payments, name="payments"),
]
