"""Addresses of photos. Both names in them are unguessable, or need a right."""

from __future__ import annotations

from django.urls import path

from intake.photos import views

_MINE = "s/<slug:token>/photos/"
_STAFF = "desk/<slug:reference>/photos/<slug:ident>/"

urlpatterns = [
    path(_MINE, views.add, name="photo-add"),
    path(f"{_MINE}<slug:ident>/", views.photo, name="photo"),
    path(f"{_MINE}<slug:ident>/small/", views.photo, {"small": True}, name="photo-small"),
    path(f"{_MINE}<slug:ident>/remove/", views.remove, name="photo-remove"),
    path(_STAFF, views.staff_photo, name="staff-photo"),
    path(f"{_STAFF}small/", views.staff_photo, {"small": True}, name="staff-photo-small"),
]
