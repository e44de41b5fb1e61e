"""Addresses of bars, shafts and what is to be ordered."""

from __future__ import annotations

from django.urls import URLPattern, path

from quotes.stock import views

urlpatterns: list[URLPattern] = [
    path("shop/bars/", views.bars, name="bars"),
    path("shop/bars/hold/", views.bars_hold, name="bars-hold"),
    path("shop/reorder/", views.reorder, name="reorder"),
    path("shop/reorder.csv", views.reorder_csv, name="reorder-csv"),
    path("shop/reorder/hold/", views.reorder_hold, name="reorder-hold"),
    path("shop/reorder/point/", views.reorder_point, name="reorder-point"),
]
