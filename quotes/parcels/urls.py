"""Addresses of a parcel of parts."""

from __future__ import annotations

from django.urls import path

from quotes.parcels import views

urlpatterns = [
    path("shop/<str:reference>/parcel/", views.parcel, name="shop-parcel"),
    path("shop/<str:reference>/parcel/pack/", views.pack, name="parcel-pack"),
    path("shop/<str:reference>/parcel/back/", views.open_again, name="parcel-back"),
    path("shop/<str:reference>/parcel/send/", views.send, name="parcel-send"),
]
