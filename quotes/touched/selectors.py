"""Which quotes a change of a part would touch."""

from __future__ import annotations

import json

from django.db.models import TextField
from django.db.models.functions import Cast

from quotes.domain.lifecycle import QuoteStatus
from quotes.models import Quote

_OPEN = (QuoteStatus.DRAFTED, QuoteStatus.ISSUED, QuoteStatus.ACCEPTED)
_MOST = 50


def quotes_naming(code: str) -> list[Quote]:
    """Quotes that wait for an answer, or are accepted and still here, with a line of this code.

    Looked for among the open ones alone; one query.
    """
    rows = Quote.objects.filter(is_here=True, status__in=[one.value for one in _OPEN])
    text = rows.annotate(said=Cast("lines", TextField()))
    named = text.filter(said__contains=f'"code": {json.dumps(code)}')
    return list(named.select_related("submission").defer("inputs").order_by("-pk")[:_MOST])
