"""The API's throttle for pages that are no API calls but are open to anybody as well."""

from __future__ import annotations

from math import ceil
from typing import cast

from django.http import HttpRequest
from rest_framework.request import Request

from intake.api import PublicCall


def seconds_to_wait(request: HttpRequest) -> int:
    """Count this request like a call of the public API; 0 when it may go on."""
    call = PublicCall()
    for throttle in call.get_throttles():
        if not throttle.allow_request(cast(Request, request), call):
            return ceil(throttle.wait() or 1)
    return 0
