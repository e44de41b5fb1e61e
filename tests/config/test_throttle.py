"""The public API, called too often."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from django.contrib.auth.models import AnonymousUser
from django.core.cache import cache
from rest_framework.permissions import AllowAny
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.test import APIRequestFactory
from rest_framework.views import APIView

from config.throttle import ByAddress


class OncePerMinute(ByAddress):
    rate = "2/min"


class Page(APIView):
    permission_classes = (AllowAny,)
    throttle_classes = (OncePerMinute,)

    def get(self, request: Request) -> Response:
        return Response()


@pytest.fixture(autouse=True)
def forgetful() -> Iterator[None]:
    cache.clear()
    yield
    cache.clear()


def call(address: str, **headers: str) -> int:
    request = APIRequestFactory().get("/", headers=headers, REMOTE_ADDR=address)
    request.user = AnonymousUser()
    return Page.as_view()(request).status_code


def test_the_third_call_waits_and_a_made_up_address_does_not_help() -> None:
    assert [call("198.51.100.7") for _ in range(3)] == [200, 200, 429]
    assert call("198.51.100.7", **{"X-Forwarded-For": "203.0.113.1"}) == 429
    assert call("198.51.100.8") == 200


def test_a_cache_that_is_away_lets_callers_in(settings: Any) -> None:
    settings.CACHES = {
        "default": {
            "BACKEND": "django.core.cache.backends.redis.RedisCache",
            "LOCATION": "redis://127.0.0.1:1/0",
        }
    }
    assert [call("198.51.100.7") for _ in range(3)] == [200, 200, 200]
