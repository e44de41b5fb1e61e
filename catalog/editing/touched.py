"""What rests on a part, as other rooms tell it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from catalog.signals import part_will_change


@dataclass(frozen=True, slots=True)
class Touched:
    """One thing that rests on a part: in words, and where it is looked at. ``binds``: the part
    cannot be taken out while it is there."""

    words: str
    address: str
    binds: bool = False


def what_rests_on(code: str) -> list[Touched]:
    """Everything any room knows to rest on it; a room that fails is not passed over."""
    answers = cast(
        "list[tuple[object, list[Touched]]]", part_will_change.send(sender=None, code=code)
    )
    return [one for _receiver, found in answers for one in found]
