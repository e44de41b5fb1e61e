"""Groups and their permissions, and the accounts of the people: made, changed, never deleted."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from django.contrib.auth import get_user_model
from django.contrib.auth.models import Group, Permission
from django.db import IntegrityError, transaction
from django.db.models import F
from django.utils import timezone

from staff.accounts.selectors import group_of
from staff.errors import Overtaken, Refused
from staff.models import Account
from staff.seats.services import end_all
from staff.second import services as second
from staff.second.secrets import one_time_password
from staff.security import tell
from staff.trail.services import note_change

if TYPE_CHECKING:
    from django.contrib.auth.models import User

_COUNTER = (
    "intake.view_submission",
    "intake.add_callrecord",
    "intake.merge_records",
    "quotes.add_quote",
    "quotes.add_payment",
    "quotes.add_invoice",
    "quotes.add_outcome",
    "quotes.view_case",
    "quotes.change_case",
    "quotes.change_ownpart",
    "quotes.view_shoporder",
    "quotes.add_release",
    "catalog.view_piece",
)
# At the bench: a shaft is moved on, measured, packed and sent.
_BENCH = (
    "quotes.view_case",
    "quotes.change_ownpart",
    "quotes.view_shoporder",
    "quotes.change_shoporder",
    "quotes.add_inspection",
    "quotes.add_shipment",
    "catalog.view_piece",
    "catalog.add_piece",
    "quotes.view_hold",
    "quotes.change_hold",
)
_MANAGER = (
    "intake.view_insights",
    "intake.add_questionwording",
    "intake.override_stop",
    "intake.erase_customer",
    "catalog.add_part",
    "catalog.change_part",
    "catalog.view_part",
    "catalog.change_piece",
    "catalog.change_reorderpoint",
    "quotes.add_rateset",
    "quotes.add_costset",
    "quotes.add_customerterms",
    "quotes.view_quote",
    "quotes.add_closedday",
    "quotes.credit_invoice",
    "staff.manage_accounts",
)
GROUPS: dict[str, tuple[str, ...]] = {
    "counter": _COUNTER,
    "machinist": ("intake.view_submission", "quotes.view_quote", *_BENCH),
    "manager": _COUNTER + _MANAGER + _BENCH,
}
ONE_TIME_HOLDS = timedelta(days=3)


@transaction.atomic
def make_groups() -> None:
    """Make the three groups and give each exactly its permissions. Safe to repeat."""
    known = {
        f"{permission.content_type.app_label}.{permission.codename}": permission
        for permission in Permission.objects.select_related("content_type")
    }
    for name, wanted in GROUPS.items():
        group, _ = Group.objects.get_or_create(name=name)
        group.permissions.set([known[codename] for codename in wanted if codename in known])


@transaction.atomic
def make_person(*, name: str, group: str, password: str) -> User:
    """Make one member of staff if there is none of that name; never changes a password."""
    person, new = get_user_model().objects.get_or_create(
        username=name, defaults={"is_staff": group == "manager"}
    )
    if new:
        person.set_password(password)
        person.save(update_fields=["password"])
        person.groups.add(Group.objects.get(name=group))
    return person


def open_account(*, name: str, full_name: str, group: str, by: User, why: str) -> tuple[User, str]:
    """Make an account, and the one-time password to be read out to its person.

    Raises Refused where the name is taken, also in other capitals.
    """
    taken = Refused(f"There is an account named {name} already. Choose another name.")
    if get_user_model().objects.filter(username__iexact=name).exists():
        raise taken
    try:
        with transaction.atomic():
            return _open(name=name, full_name=full_name, group=group, by=by, why=why)
    except IntegrityError as error:
        raise taken from error


def _open(*, name: str, full_name: str, group: str, by: User, why: str) -> tuple[User, str]:
    person = get_user_model().objects.create(
        username=name, first_name=full_name, is_staff=group == "manager"
    )
    person.groups.add(Group.objects.get(name=group))
    Account.objects.create(user=person)
    told = _one_time(person)
    _note(person, by, why, {}, {"name": name, "full name": full_name, "group": group})
    tell("account-made", person=person.pk, by=by.pk, group=group)
    return person, told


@transaction.atomic
def change_group(*, person: User, group: str, seen: int, by: User, why: str) -> None:
    """Put a person into another group. The last open manager stays one."""
    old = group_of(person)
    _turn(person, seen, by)
    _not_oneself(person, by, "Ask another manager to change your group.")
    if old == "manager" and group != "manager":
        _keep_a_manager(person)
    person.groups.set([Group.objects.get(name=group)])
    get_user_model().objects.filter(pk=person.pk).update(is_staff=group == "manager")
    _note(person, by, why, {"group": old}, {"group": group})
    tell("account-group", person=person.pk, by=by.pk, group=group)


@transaction.atomic
def reset_password(*, person: User, seen: int, by: User, why: str) -> str:
    """Give a new one-time password; the old one is void and every login is ended."""
    _turn(person, seen, by)
    _not_oneself(person, by, "Change your own password on your account's page.")
    told = _one_time(person)
    end_all(person, why="password reset")
    _note(person, by, why, {"password": "their own"}, {"password": "one-time"})
    tell("account-password-reset", person=person.pk, by=by.pk)
    return told


@transaction.atomic
def reset_second(*, person: User, seen: int, by: User, why: str) -> None:
    """Take a lost second factor away: codes on paper void, every login ended."""
    _turn(person, seen, by)
    _not_oneself(person, by, "Change your own second factor on your account's page.")
    if not second.remove(person, by=by, why=why):
        raise Refused("There is no second factor to take away.")
    end_all(person, why="second factor removed")


@transaction.atomic
def lose_second(*, person: User) -> bool:
    """The same from the command line, where no manager is left to ask; False without one."""
    if not second.remove(person, by=None, why="on the command line"):
        return False
    end_all(person, why="second factor removed")
    return True


@transaction.atomic
def close_account(*, person: User, seen: int, by: User, why: str) -> None:
    """Close an account: no login any more, every open one ended. What was done stays on record."""
    _turn(person, seen, by)
    _not_oneself(person, by, "Ask another manager to close your account.")
    _keep_a_manager(person)
    if not get_user_model().objects.filter(pk=person.pk, is_active=True).update(is_active=False):
        raise Overtaken
    end_all(person, why="account closed")
    _note(person, by, why, {"account": "open"}, {"account": "closed"})
    tell("account-closed", person=person.pk, by=by.pk)


@transaction.atomic
def reopen_account(*, person: User, seen: int, by: User, why: str) -> None:
    """Open a closed account again, with the password and second factor it had."""
    _turn(person, seen, by)
    if not get_user_model().objects.filter(pk=person.pk, is_active=False).update(is_active=True):
        raise Overtaken
    _note(person, by, why, {"account": "closed"}, {"account": "open"})
    tell("account-reopened", person=person.pk, by=by.pk)


@transaction.atomic
def change_own_password(*, person: User, password: str, seat: int | None) -> None:
    """Take a person's own new password; every other login of theirs is ended."""
    person.set_password(password)
    person.save(update_fields=["password"])
    Account.objects.update_or_create(
        user=person, defaults={"must_change": False, "one_time_until": None}
    )
    end_all(person, why="password changed", but=seat)
    _note(person, person, "by the person", {"password": "earlier"}, {"password": "changed"})
    tell("password-changed", person=person.pk)


def _turn(person: User, seen: int, by: User) -> None:
    """Take the turn to change this account, if nobody had one since ``seen``."""
    if person.is_superuser and not by.is_superuser:
        raise Refused("This account is kept on the command line, not here.")
    Account.objects.get_or_create(user=person)
    mine = Account.objects.filter(user=person, revision=seen)
    if not mine.update(revision=F("revision") + 1):
        raise Overtaken


def _not_oneself(person: User, by: User, way_out: str) -> None:
    if person.pk == by.pk:
        raise Refused(way_out)


def _keep_a_manager(person: User) -> None:
    """Refuse what would leave nobody who may manage accounts.

    The update of the group's row makes two managers who close each other wait for one another;
    the second then counts what the first has left.
    """
    Group.objects.filter(name="manager").update(name="manager")
    others = get_user_model().objects.filter(groups__name="manager", is_active=True)
    if not others.exclude(pk=person.pk).exists():
        raise Refused("This is the last open manager. Make somebody else a manager first.")


def _one_time(person: User) -> str:
    """Set a password that is good for one login within three days, and say it."""
    told = one_time_password()
    person.set_password(told)
    person.save(update_fields=["password"])
    until = timezone.now() + ONE_TIME_HOLDS
    Account.objects.filter(user=person).update(must_change=True, one_time_until=until)
    return told


def _note(person: User, by: User, why: str, before: dict[str, str], after: dict[str, str]) -> None:
    note_change(record="account", key=person.pk, by=by, why=why, before=before, after=after)
