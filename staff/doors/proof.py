"""Asking a person once more who they are, before what cannot be taken back."""

from __future__ import annotations

from django.contrib.auth import authenticate
from django.contrib.auth.models import User
from django.http import HttpRequest

from staff.second.services import Taken, take_code
from staff.security import address_of

NOT_YOURS = "This is not your password. After a few misses the door closes for a while."
CODE_SAID = {
    Taken.NO: "This code is not right, or was used before. Wait for the next one.",
    Taken.WAIT: "There were too many wrong codes. Wait a quarter of an hour and try again.",
}


def knows_password(request: HttpRequest, person: User, password: str) -> bool:
    """Whether this is the person's password. Misses count as misses at the door do."""
    found = authenticate(request, username=person.get_username(), password=password)
    return found is not None and found.pk == person.pk


def code_fault(request: HttpRequest, person: User, code: str) -> str:
    """Why a code was not taken, in words; "" when it was."""
    taken = take_code(person, code, address=address_of(request))
    return "" if taken.is_right else CODE_SAID[taken]
