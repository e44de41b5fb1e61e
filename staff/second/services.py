"""Setting a second factor up, and taking codes. A code is counted before it is looked at."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta
from enum import StrEnum

from django.contrib.auth.hashers import check_password, make_password
from django.contrib.auth.models import Group, User
from django.db import IntegrityError, transaction
from django.db.models import Case, DateTimeField, F, Value, When
from django.utils import timezone

from staff.errors import Overtaken
from staff.models import RecoveryCode, SecondFactor, SecondRule
from staff.second import secrets, selectors, totp
from staff.security import tell
from staff.trail.services import note_change

MOST_TRIES = 5
WAIT = timedelta(minutes=15)
RULE = ("rule", "second factor")  # where the trail keeps it


class Taken(StrEnum):
    """What became of a code."""

    YES = "yes"
    RECOVERY = "recovery"  # right, and used up
    NO = "no"
    WAIT = "wait"  # too many tries: not even looked at

    @property
    def is_right(self) -> bool:
        return self in (Taken.YES, Taken.RECOVERY)


def take_code(person: User, typed: str, *, address: str = "") -> Taken:
    """Take a code from the phone or from paper; each counts once.

    After five wrong ones nothing is looked at for a quarter of an hour, however many ask at once:
    the try is counted first.
    """
    now = timezone.now()
    if not _count_a_try(person, now):
        tell("second-wait", person=person.pk, address=address)
        return Taken.WAIT
    taken = _from_paper(person, typed, now) or _from_phone(person, typed, now)
    if taken.is_right:
        SecondFactor.objects.filter(user=person).update(tries=0, wait_until=None)
    tell(f"second-{taken}", person=person.pk, address=address)
    return taken


def _count_a_try(person: User, now: datetime) -> bool:
    """The fifth try in a row shuts the door behind it; a right code opens it again."""
    mine = SecondFactor.objects.filter(user=person).exclude(salt="")
    mine.filter(wait_until__lte=now).update(tries=0, wait_until=None)
    last = When(tries__gte=MOST_TRIES - 1, then=Value(now + WAIT))
    counted = mine.filter(wait_until=None).update(
        tries=F("tries") + 1, wait_until=Case(last, default=None, output_field=DateTimeField())
    )
    return bool(counted)


def _from_phone(person: User, typed: str, now: datetime) -> Taken:
    code = "".join(typed.split())
    factor = selectors.factor_of(person)
    step = _step(factor.salt, code, now, after=factor.last_step)
    if step is None:
        return Taken.NO
    # Two logins with one code at once: the database lets one of them through.
    first = SecondFactor.objects.filter(user=person, last_step__lt=step).update(last_step=step)
    return Taken.YES if first else Taken.NO


def _step(salt: str, code: str, now: datetime, *, after: int) -> int | None:
    if not (salt and code.isascii() and code.isdigit()):
        return None
    fits = (
        totp.step_that_fits(secret, code, now=totp.step_of(now), after=after)
        for secret in secrets.secrets_of(salt)
    )
    return next((step for step in fits if step is not None), None)


def _from_paper(person: User, typed: str, now: datetime) -> Taken | None:
    """None where it does not even look like one."""
    read = secrets.read_recovery(typed)
    if read is None:
        return None
    number, letters = read
    row = RecoveryCode.objects.filter(user=person, number=number, used_at=None).first()
    if row is None or not check_password(letters, row.hashed):
        return Taken.NO
    first = RecoveryCode.objects.filter(pk=row.pk, used_at=None).update(used_at=now)
    return Taken.RECOVERY if first else Taken.NO


def propose(person: User) -> None:
    """Make a new secret to be shown. What is in force stays so until a code confirms this one."""
    SecondFactor.objects.update_or_create(
        user=person, defaults={"proposed": secrets.new_salt(), "proposed_at": timezone.now()}
    )


def confirm(person: User, typed: str) -> list[str]:
    """Put the proposed secret in force, if the code is one of its own.

    Answers with new recovery codes, which are never shown again; none where the code is wrong or
    nothing is proposed. Codes on paper from before are void.
    """
    now = timezone.now()
    factor = selectors.factor_of(person)
    code = "".join(typed.split())
    is_open = selectors.is_proposed(factor, now)
    step = _step(factor.proposed, code, now, after=0) if is_open else None
    if step is None:
        return []
    codes = secrets.recovery_codes()
    rows = _hashed(person, codes)  # before the transaction: slow on purpose
    with transaction.atomic():
        mine = SecondFactor.objects.filter(user=person, proposed=factor.proposed)
        if not mine.update(
            salt=factor.proposed, proposed="", since=now, last_step=step, tries=0, wait_until=None
        ):
            return []
        _replace_codes(person, rows)
        _note(person, by=person, why="set up by the person", was=factor.is_on, now_on=True)
    tell("second-set-up", person=person.pk)
    return codes


def new_recovery_codes(person: User) -> list[str]:
    """Ten new codes on paper; the earlier ones are void."""
    codes = secrets.recovery_codes()
    rows = _hashed(person, codes)
    with transaction.atomic():
        _replace_codes(person, rows)
        note_change(
            record="account", key=person.pk, by=person, why="asked for by the person",
            before={}, after={"recovery codes": "made anew"},
        )  # fmt: skip
    tell("recovery-codes-made", person=person.pk)
    return codes


def _hashed(person: User, codes: Sequence[str]) -> list[RecoveryCode]:
    read = [secrets.read_recovery(code) for code in codes]
    return [
        RecoveryCode(user=person, number=one[0], hashed=make_password(one[1]))
        for one in read
        if one
    ]


def _replace_codes(person: User, rows: Sequence[RecoveryCode]) -> None:
    RecoveryCode.objects.filter(user=person).delete()
    RecoveryCode.objects.bulk_create(rows)


@transaction.atomic
def remove(person: User, *, by: User | None, why: str) -> bool:
    """Take the second factor and its codes on paper away; False where there was none."""
    mine = SecondFactor.objects.filter(user=person).exclude(salt="")
    if not mine.update(salt="", since=None, proposed="", tries=0, wait_until=None):
        return False
    RecoveryCode.objects.filter(user=person).delete()
    _note(person, by=by, why=why, was=True, now_on=False)
    tell("second-removed", person=person.pk, by=by.pk if by else "-")
    return True


def _note(person: User, *, by: User | None, why: str, was: bool, now_on: bool) -> None:
    words = {True: "on", False: "off"}
    after = "on, another phone" if was and now_on else words[now_on]
    note_change(
        record="account", key=person.pk, by=by, why=why,
        before={"second factor": words[was]}, after={"second factor": after},
    )  # fmt: skip


@transaction.atomic
def require(*, everyone: bool, groups: Sequence[str], by: User, why: str, seen: int) -> SecondRule:
    """Ask a second factor of everyone, of some groups, or of nobody. The newest rule counts.

    ``seen`` is the number of the rule the manager looked at, 0 for none; raises Overtaken when
    there is another by now.
    """
    old = selectors.rules().first()
    if (old.number if old else 0) != seen:
        raise Overtaken
    rule = _next_rule(seen + 1, everyone=everyone, by=by, why=why)
    rule.groups.set([] if everyone else Group.objects.filter(name__in=groups))
    record, key = RULE
    now = asked_of(rule)
    note_change(
        record=record, key=key, by=by, why=why,
        before={"asked of": asked_of(old)}, after={"asked of": now},
    )  # fmt: skip
    tell("second-rule", by=by.pk, asked_of=now.replace(" ", "-"))
    return rule


def _next_rule(number: int, *, everyone: bool, by: User, why: str) -> SecondRule:
    try:
        with transaction.atomic():
            return SecondRule.objects.create(number=number, everyone=everyone, by=by, why=why)
    except IntegrityError as error:
        raise Overtaken from error


def asked_of(rule: SecondRule | None) -> str:
    """Of whom a rule asks a second factor, in words."""
    if rule is None:
        return "nobody"
    if rule.everyone:
        return "everyone"
    return ", ".join(sorted(group.name for group in rule.groups.all())) or "nobody"
