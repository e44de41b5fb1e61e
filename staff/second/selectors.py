"""Reading second factors and the rule about them."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.contrib.auth.models import User
from django.db.models import Exists, OuterRef, Q, QuerySet, Subquery

from staff.models import RecoveryCode, SecondFactor, SecondRule

PROPOSAL_HOLDS = timedelta(minutes=15)


def factor_of(person: User) -> SecondFactor:
    """The person's second factor as it is now; a blank one where there is none yet."""
    return SecondFactor.objects.filter(user=person).first() or SecondFactor(user=person)


def has_factor(person: User) -> bool:
    """Whether a code is asked of this person at the door."""
    return SecondFactor.objects.filter(user=person).exclude(salt="").exists()


def is_proposed(factor: SecondFactor, now: datetime) -> bool:
    """Whether a new secret was shown and still waits for its first code."""
    at = factor.proposed_at
    return bool(factor.proposed) and at is not None and now - at < PROPOSAL_HOLDS


def recovery_codes_left(person: User) -> int:
    """How many codes on paper are not used yet."""
    return RecoveryCode.objects.filter(user=person, used_at=None).count()


def must_have(person: str) -> Exists:
    """Whether the rule in force asks a second factor of somebody; ``person`` names the column."""
    newest = SecondRule.objects.order_by("-number").values("pk")[:1]
    asked = Q(everyone=True) | Q(groups__user=OuterRef(person))
    return Exists(SecondRule.objects.filter(asked, pk=Subquery(newest)))


def is_required_of(person: User) -> bool:
    """Whether the rule in force asks a second factor of this person."""
    return User.objects.filter(pk=person.pk).filter(must_have("pk")).exists()


def rules() -> QuerySet[SecondRule]:
    """What was asked of whom, newest (the one in force) first."""
    return SecondRule.objects.select_related("by").prefetch_related("groups")
