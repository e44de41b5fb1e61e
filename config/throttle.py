"""How often one address may call the public API."""

from __future__ import annotations

import logging
from typing import TYPE_CHECKING

from rest_framework.throttling import AnonRateThrottle

if TYPE_CHECKING:  # the framework reads its settings, and with them this file, on its way in
    from rest_framework.request import Request
    from rest_framework.views import APIView

log = logging.getLogger(__name__)


class ByAddress(AnonRateThrottle):
    """The rate of API_THROTTLE for each address. A cache that is away lets callers in."""

    scope = "address"

    def allow_request(self, request: Request, view: APIView) -> bool:
        try:
            return bool(super().allow_request(request, view))
        except Exception as error:
            if not _cache_is_away(error):
                raise
            log.warning("The cache is away: this call was not counted")
            return True


def _cache_is_away(error: Exception) -> bool:
    from redis.exceptions import RedisError  # here, because a site without Redis starts sooner

    return isinstance(error, RedisError)
