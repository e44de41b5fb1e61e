"""People and calls for the tests of the staff pages."""

from __future__ import annotations

from importlib import resources
from typing import Any

from django.contrib.auth.models import Permission, User
from django.urls import reverse

from catalog.services import load_catalog
from intake.desk_drafts.services import new_ident

RIGHTS = {
    "counter": ("view_submission", "add_callrecord"),
    "machinist": ("view_submission",),
    "manager": ("view_submission", "add_callrecord", "view_insights", "override_stop"),
    "stranger": (),
}

CLEAN: dict[str, str] = {
    "tape_unit": "in",
    "contact.name": "Wilmot Tarpley",
    "contact.phone": "+1 202 555 0100",
    "contact.role": "owner",
    "answers.boat_name_and_station.name": "Biscuit Barrel",
    "answers.boat_name_and_station.station": "single",
    "answers.drive_layout": "inline",
    "answers.flange_direction": "aft",
    "answers.dia_clean.text": "1",
    "answers.dia_clean.method": "caliper",
    "answers.face_to_strut_aft.text": "44 1/8",
    "answers.face_to_strut_aft.method": "rod",
    "answers.gap_now.text": "3/4",
    "answers.gap_now.method": "drill_shank",
    "answers.tail_to_thread.text": "4 7/8",
    "answers.tail_to_thread.method": "tape_short",
    "answers.hub_length.text": "2 15/16",
    "answers.hub_length.method": "caliper",
    "answers.old_length_face_to_thread.text": "49",
    "answers.old_length_face_to_thread.method": "tape",
    "answers.flange_od.text": "4",
    "answers.flange_od.method": "tape_short",
    "answers.shell_od.text": "1 1/4",
    "answers.shell_od.method": "caliper_in_place",
    "answers.bearing_length.text": "2",
    "answers.bearing_length.count": "1",
}


def a_new_call(deed: str = "desk-save") -> str:
    """Where a call that nobody has typed yet is saved, or kept."""
    return reverse(deed, args=[new_ident()])


def stock_the_shelf() -> None:
    """The demo catalogue, as the shop has it."""
    load_catalog((resources.files("catalog") / "data" / "demo_catalog.csv").read_text("utf-8"))


def a_person(group: str = "counter", name: str = "") -> User:
    """Somebody who may do what that group may."""
    user = User.objects.create_user(name or group, password="a-long-password-here")
    rights = Permission.objects.filter(content_type__app_label="intake")
    user.user_permissions.set(rights.filter(codename__in=RIGHTS[group]))
    return user


def a_call(**changes: str) -> dict[str, Any]:
    """The boxes of a call that adds up; `gap_now="1"` changes the text of one answer."""
    boxes: dict[str, Any] = {**CLEAN, "wants": ["shaft", "coupling", "bearing"]}
    for name, text in changes.items():
        boxes[f"answers.{name}.text" if "." not in name else name] = text
    return boxes


def an_inch_out(**changes: str) -> dict[str, Any]:
    """A call whose boat length began on the 1 mark: the routes are an inch apart."""
    return a_call(face_to_strut_aft="45 1/8", **changes)
