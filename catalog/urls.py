"""Addresses of this room's pages."""

from django.urls import path

from catalog import views
from catalog.editing import views as editing
from catalog.imports import urls as import_urls
from catalog.pieces import urls as piece_urls
from catalog.prices import urls as price_urls

urlpatterns = [
    path("standards/", views.standards, name="standards"),
    path("catalog/", views.catalog, name="catalog"),
    path("catalog/changes/<path:code>", views.part_changes, name="part-changes"),
    path("catalog/parts/new/", editing.new_part, name="part-new"),
    path("catalog/parts/<path:code>/edit/", editing.edit_part, name="part-edit"),
    path("catalog/parts/<path:code>/remove/", editing.remove_part, name="part-remove"),
    path("catalog/parts.csv", views.catalog_csv, name="catalog-csv"),
    *import_urls.urlpatterns,
    *price_urls.urlpatterns,
    *piece_urls.urlpatterns,
]
