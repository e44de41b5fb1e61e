"""Reading accounts."""

from __future__ import annotations

from django.contrib.auth.models import User
from django.db.models import Exists, OuterRef, QuerySet, Subquery
from django.utils import timezone

from staff.models import Account, Seat, SecondFactor

PAGE = 50


def group_of(person: User) -> str:
    """The name of the person's group; "" for none."""
    return ", ".join(sorted(group.name for group in person.groups.all()))


def people(*, after: str = "") -> tuple[list[User], str]:
    """One page of the staff by name, open and closed, and the name to go on after.

    Two queries however many. Each has ``last_seen`` and ``has_second``.
    """
    rows = list(_people().filter(username__gt=after).order_by("username")[: PAGE + 1])
    return rows[:PAGE], rows[PAGE - 1].username if len(rows) > PAGE else ""


def person(pk: int) -> User | None:
    """One member of the staff, as ``people`` has them."""
    return _people().filter(pk=pk).first()


def named(name: str) -> User | None:
    """A member of the staff by the name they log in with."""
    return User.objects.filter(username=name).first()


def _people() -> QuerySet[User]:
    seats = Seat.objects.filter(user=OuterRef("pk")).order_by("-active_at")
    factors = SecondFactor.objects.filter(user=OuterRef("pk")).exclude(salt="")
    return (
        User.objects.select_related("desk_account")
        .prefetch_related("groups")
        .annotate(last_seen=Subquery(seats.values("active_at")[:1]), has_second=Exists(factors))
    )


def revision_of(person: User) -> int:
    """How often a manager has changed this account: a form carries it along."""
    account = getattr(person, "desk_account", None)
    return account.revision if account is not None else 0


def is_stale(person: User) -> bool:
    """Whether a one-time password has waited longer than it may."""
    account = Account.objects.filter(user=person, must_change=True).first()
    until = account.one_time_until if account is not None else None
    return until is not None and until < timezone.now()
