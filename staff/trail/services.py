"""Writing the trail, inside the transaction of the change it tells of."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from typing import Any

from django.contrib.auth.models import User
from django.db import connection, transaction

from staff.models import Change

State = Mapping[str, Any]
States = tuple[State, State]
LONGEST_WHY = 400
_BATCH = 500
FORGOTTEN = "erased"


def note_change(
    *,
    record: str,
    key: object,
    by: User | None,
    why: str,
    before: Mapping[str, Any],
    after: Mapping[str, Any],
) -> Change | None:
    """Write down what differs between two states of one record; None where nothing does.

    A new record has an empty ``before``. ``by`` None: the desk did it by itself. Raises
    ``TransactionManagementError`` outside a transaction: a trail without its change is a rumour.
    """
    _inside_a_transaction()
    what = _differences(before, after)
    if not what:
        return None
    return Change.objects.create(
        record=record, key=str(key), by=by, why=why[:LONGEST_WHY], what=what
    )


def note_changes(
    *, record: str, by: User | None, why: str, changes: Iterable[tuple[object, States]]
) -> int:
    """Write down many changes of one kind made at once: pairs of key and (before, after).

    A few queries however many; how many lines were written.
    """
    _inside_a_transaction()
    lines = [
        Change(record=record, key=str(key), by=by, why=why[:LONGEST_WHY], what=what)
        for key, (before, after) in changes
        if (what := _differences(before, after))
    ]
    Change.objects.bulk_create(lines, batch_size=_BATCH)
    return len(lines)


def _inside_a_transaction() -> None:
    if not connection.in_atomic_block:
        raise transaction.TransactionManagementError("a trail needs its change's transaction")


def _differences(before: State, after: State) -> dict[str, list[Any]]:
    names = dict.fromkeys([*before, *after])
    return {
        name: [_told(before.get(name)), _told(after.get(name))]
        for name in names
        if before.get(name) != after.get(name)
    }


def forget_values(*, record: str, key: object, names: Collection[str]) -> None:
    """Blank what a person asked us to erase, and the reasons: who gave them may have named them.

    That it was changed, when and by whom stays.
    """
    for change in Change.objects.filter(record=record, key=str(key)):
        change.what = {
            name: [FORGOTTEN, FORGOTTEN] if name in names else told
            for name, told in change.what.items()
        }
        change.why = FORGOTTEN if change.why else ""
        change.save(update_fields=["what", "why"])


def _told(value: Any) -> Any:
    """The value as JSON keeps it: numbers, yes or no, lists of names, everything else as text."""
    if value is None or isinstance(value, bool | int | str):
        return value
    if isinstance(value, list | tuple | set | frozenset):
        return [_told(each) for each in value]
    return str(value)
