"""Addresses of this room's pages."""

from __future__ import annotations

from django.urls import path

from intake import desk_urls, guided_urls, know_urls, paper_urls, views
from intake.photos import urls as photo_urls

urlpatterns = [
    path("", views.measure, name="measure"),
    path("review/", views.review, name="review"),
    path("read-back/", views.read_back_one, name="read-back"),
    *guided_urls.urlpatterns,
    *know_urls.urlpatterns,
    *paper_urls.urlpatterns,
    *photo_urls.urlpatterns,
    *desk_urls.urlpatterns,
]
