"""Addresses of these pages."""

from __future__ import annotations

from django.urls import path

from intake.desk_drafts import saving, views
from intake.desk_drafts.going_on.views import take_up
from intake.desk_drafts.presence.views import here

urlpatterns = [
    path("", views.desk, name="desk"),
    path("here/", here, name="desk-here"),
    path("call/<str:ident>/", views.draft, name="desk-draft"),
    path("call/<str:ident>/keep/", views.keep, name="desk-keep"),
    path("call/<str:ident>/save/", saving.save, name="desk-save"),
    path("call/<str:ident>/put-away/", views.put_away, name="desk-put-away"),
    path("call/<str:ident>/reopen/", views.reopen, name="desk-reopen"),
    path("<str:reference>/take-up/", take_up, name="take-up"),
]
