"""Work for later of the shop: an id goes in, one service is called. It may run twice."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from intake.jobs import handler
from quotes.shop import services


@handler("draw_cut_sheet")
def draw_cut_sheet(payload: Mapping[str, Any]) -> Callable[[], object] | None:
    """The page now, outside any transaction; the row in the closure."""
    return services.prepare_cut_sheet(quote_id=payload["quote_id"])
