"""Addresses of these pages."""

from __future__ import annotations

from django.urls import URLPattern, path

from intake.customers import merge_views, privacy_views, views

urlpatterns: list[URLPattern] = [
    path("customers/", views.customers, name="customers"),
    path("customers/<int:pk>/", views.customer, name="customer"),
    path("customers/<int:pk>/merge/", merge_views.customers, name="merge-customers"),
    path("customers/<int:pk>/export/", privacy_views.export, name="export-customer"),
    path("customers/<int:pk>/erase/", privacy_views.erase, name="erase-customer"),
    path("boats/<int:pk>/", views.boat, name="boat"),
    path("boats/<int:pk>/merge/", merge_views.boats, name="merge-boats"),
    path("merges/<int:pk>/part/", merge_views.part_again, name="part-records"),
    path("jobs/<int:pk>/", views.job, name="job"),
]
