"""Addresses of photos for staff. The customer's hang on the private link, in the next room."""

from __future__ import annotations

from django.urls import path

from intake.photos import views

_ONE = "desk/<slug:reference>/photos/<slug:ident>/"

urlpatterns = [
    path(_ONE, views.staff_photo, name="staff-photo"),
    path(f"{_ONE}small/", views.staff_photo, {"small": True}, name="staff-photo-small"),
]
