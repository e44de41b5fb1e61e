"""Addresses of the counter's pages about how it fitted."""

from __future__ import annotations

from django.urls import path

from quotes.outcomes import views

urlpatterns = [
    path("desk/fitted/", views.silent, name="silent"),
    path("desk/<str:reference>/fit/", views.desk_fit, name="desk-fit"),
]
