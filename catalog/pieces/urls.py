"""Addresses of the rack."""

from __future__ import annotations

from django.urls import URLPattern, path

from catalog.pieces import views

urlpatterns: list[URLPattern] = [
    path("catalog/pieces/", views.pieces, name="pieces"),
    path("catalog/pieces.csv", views.pieces_csv, name="pieces-csv"),
    path("catalog/pieces/goods-in/", views.goods_in, name="goods-in"),
    path("catalog/pieces/<int:piece>/", views.piece, name="piece"),
    path("catalog/pieces/<int:piece>/correct/", views.correct, name="piece-correct"),
    path("catalog/pieces/<int:piece>/certificate/", views.certificate, name="piece-certificate"),
]
