"""Addresses of the customer's photos. Both names in them are unguessable."""

from __future__ import annotations

from django.urls import path

from quotes import photos

_MINE = "s/<slug:token>/photos/"
_ONE = f"{_MINE}<slug:ident>/"

urlpatterns = [
    path(_MINE, photos.add, name="photo-add"),
    path(_ONE, photos.photo, name="photo"),
    path(f"{_ONE}small/", photos.photo, {"small": True}, name="photo-small"),
    path(f"{_ONE}remove/", photos.remove, name="photo-remove"),
]
