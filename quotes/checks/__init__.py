"""The shop's own checks: they look at what leaves the desk, not at what came in."""

from __future__ import annotations

from quotes.checks.base import ShopCheck
from quotes.checks.cut_sheet import the_chain_adds_up

__all__ = ["CHECKS", "ShopCheck", "the_chain_adds_up"]

CHECKS: tuple[ShopCheck, ...] = (the_chain_adds_up,)
