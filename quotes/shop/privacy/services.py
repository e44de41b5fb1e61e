"""Free words and tags go with a customer's name; what was measured and when it left stays."""

from __future__ import annotations

from collections.abc import Sequence

from quotes.inspecting.models import Release
from quotes.passport.models import Passport
from quotes.sending.models import Shipment
from quotes.shop.models import DeskWord, ShopMove


def forget_shafts(submissions: Sequence[int]) -> None:
    """Blank what somebody wrote, take the tags' pages away. In the caller's transaction."""
    Passport.objects.filter(quote__submission__in=submissions).delete()
    Shipment.objects.filter(quote__submission__in=submissions).update(carrier="", tracking="")
    Release.objects.filter(inspection__quote__submission__in=submissions).update(why="")
    ShopMove.objects.filter(order__quote__submission__in=submissions).update(why="")
    DeskWord.objects.filter(quote__submission__in=submissions).update(words="")
