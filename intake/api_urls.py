"""Addresses below /api/v1/."""

from django.urls import path, re_path

from intake import api

urlpatterns = [
    path("read-length/", api.ReadLength.as_view(), name="api-read-length"),
    path("check/", api.Check.as_view(), name="api-check"),
    path("submissions/", api.Submissions.as_view(), name="api-submissions"),
    re_path(r"^", api.NoSuchCall.as_view(), name="api-nothing"),
]
