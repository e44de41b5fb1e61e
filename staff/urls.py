"""Addresses of this room's pages: the doors, one's own account, the people."""

from __future__ import annotations

from django.urls import path
from django.views.generic import RedirectView

from staff import own
from staff.accounts import views as accounts
from staff.doors import views as doors
from staff.trail import views as trail

urlpatterns = [
    path("accounts/login/", doors.Login.as_view(), name="login"),
    # The admin's own door would not ask for the second factor.
    path("admin/login/", doors.Login.as_view()),
    # Nor would its other two end what must end: other logins, and what the browser keeps.
    path("admin/logout/", doors.Logout.as_view()),
    path("admin/password_change/", RedirectView.as_view(pattern_name="my-password")),
    path("accounts/logout/", doors.Logout.as_view(), name="logout"),
    path("accounts/second/", doors.second, name="second"),
    path("accounts/unlock/", doors.unlock, name="unlock"),
    path("accounts/unlock/held/", doors.unlock_held, name="unlock-held"),
    path("accounts/lock/", doors.lock, name="lock"),
    path("staff/me/", own.account, name="my-account"),
    path("staff/me/password/", own.password, name="my-password"),
    path("staff/me/second/", own.my_second, name="my-second"),
    path("staff/me/sessions/end-others/", own.end_others, name="my-end-others"),
    path("staff/me/sessions/<int:seat>/end/", own.end_session, name="my-end-session"),
    path("staff/people/", accounts.people, name="staff-people"),
    path("staff/people/new/", accounts.make, name="staff-make"),
    path("staff/people/<int:pk>/", accounts.person, name="staff-person"),
    path("staff/people/<int:pk>/<slug:what>/", accounts.change, name="staff-change"),
    path(
        "staff/people/<int:pk>/sessions/<int:seat>/end/",
        accounts.end_session,
        name="staff-end-session",
    ),
    path("staff/changes/", trail.all_changes, name="all-changes"),
    path("staff/changes.csv", trail.all_changes_csv, name="all-changes-csv"),
    path("staff/second-rule/", accounts.require_second, name="staff-second-rule"),
]
