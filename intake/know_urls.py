"""Addresses of the know-how pages."""

from __future__ import annotations

from django.urls import path

from intake import know_views

urlpatterns = [
    path("know/", know_views.know_index, name="know-index"),
    path("know/<slug:slug>/", know_views.know, name="know"),
]
