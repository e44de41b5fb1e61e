"""How often one address may ask for a link. A cache that is away lets callers in."""

from __future__ import annotations

import logging
from functools import cache as once

from django.conf import settings
from django.core.cache import cache
from django.http import HttpRequest

log = logging.getLogger(__name__)
_PERIODS = {"min": 60, "hour": 3600, "day": 86400}


def too_often(request: HttpRequest, what: str) -> bool:
    """Whether this address has asked more often than LINK_THROTTLE allows; counts this time."""
    if not settings.LINK_THROTTLE:
        return False
    most, seconds = _rate(settings.LINK_THROTTLE)
    key = f"asked:{what}:{request.META.get('REMOTE_ADDR', '')}"
    try:
        cache.add(key, 0, timeout=seconds)
        return bool(cache.incr(key) > most)
    except Exception as error:  # whatever the cache's client raises
        log.warning("The cache is away (%s): this call was not counted", type(error).__name__)
        return False


@once
def _rate(text: str) -> tuple[int, int]:
    """How many in how many seconds.

    >>> _rate("10/hour")
    (10, 3600)
    """
    most, _, period = text.partition("/")
    return int(most), _PERIODS[period]
