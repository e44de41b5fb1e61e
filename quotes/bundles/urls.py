"""Addresses."""

from __future__ import annotations

from django.urls import URLPattern, path

from quotes.bundles import desk, views

urlpatterns: list[URLPattern] = [
    path("b/<str:token>/", views.bundle, name="bundle"),
    path("b/<str:token>/accept/", views.bundle_accept, name="bundle-accept"),
    path("b/<str:token>/quote-<int:version>.pdf", views.bundle_pdf, name="bundle-pdf"),
    path("b/<str:token>/boat-<int:place>.pdf", views.bundle_boat_pdf, name="bundle-boat-pdf"),
    path("desk/customers/<int:pk>/bundles/", desk.bundles, name="bundles"),
    path("desk/bundles/<int:pk>/", desk.desk_bundle, name="desk-bundle"),
    path("desk/bundles/<int:pk>/link/", desk.desk_bundle_link, name="desk-bundle-link"),
]
