"""Addresses of the papers a customer prints."""

from __future__ import annotations

from django.urls import path

from intake import paper_views

urlpatterns = [
    path("paper/measuring-sheet.pdf", paper_views.measuring_sheet, name="measuring-sheet"),
    path("paper/gauges.pdf", paper_views.gauges, name="gauges"),
]
