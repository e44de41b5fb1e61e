"""Addresses of tables that come in."""

from __future__ import annotations

from django.urls import path

from catalog.imports import views

urlpatterns = [
    path("catalog/imports/", views.imports, name="imports"),
    path("catalog/imports/<int:pk>/", views.one_import, name="import"),
    path("catalog/imports/<int:pk>/columns/", views.match_columns, name="import-columns"),
    path("catalog/imports/<int:pk>/take/", views.take_import, name="import-take"),
    path("catalog/imports/<int:pk>/undo/", views.undo_import, name="import-undo"),
    path("catalog/imports/<int:pk>/faults.csv", views.import_faults, name="import-faults"),
    path("catalog/parts.xlsx", views.parts_xlsx, name="catalog-xlsx"),
]
