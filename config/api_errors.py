"""Every error of the API as a problem (RFC 9457): what is wrong, where, and what to do."""

from __future__ import annotations

from collections.abc import Mapping
from http import HTTPStatus
from typing import Any

from django.core.exceptions import PermissionDenied
from django.http import Http404
from rest_framework import exceptions
from rest_framework.response import Response
from rest_framework.views import set_rollback

from intake.domain.lifecycle import MoveError
from intake.domain.sheet import SheetErrors
from intake.services import KeyReused, Overtaken

MEDIA_TYPE = "application/problem+json"
UNREADABLE = "Some of this cannot be read. Each field below says why; nothing was stored."

Errors = Mapping[str, list[str]]


def problem(error: Exception, context: Mapping[str, Any]) -> Response | None:
    """The answer for an exception of a call; None for a bug, which is logged and answered 500."""
    status, detail, errors = _told(error)
    if not status:
        return None
    set_rollback()
    body: dict[str, Any] = {
        "type": "about:blank",
        "title": HTTPStatus(status).phrase,
        "status": status,
        "detail": detail,
    }
    if errors:
        body["errors"] = errors
    return Response(body, status=status, headers=_headers(error), content_type=MEDIA_TYPE)


def _told(error: Exception) -> tuple[int, str, Errors | None]:
    match error:
        case SheetErrors():
            return 400, UNREADABLE, error.errors
        case exceptions.ValidationError():
            return 400, UNREADABLE, _by_field(error.detail)
        case KeyReused():
            return 409, "This Idempotency-Key came before, with another body.", None
        case MoveError() | Overtaken():
            return 409, str(error), None
        case Http404() | exceptions.NotFound():
            return 404, "There is nothing at this address. Addresses end with a slash.", None
        case PermissionDenied():
            return 403, "You may not do this.", None
        case exceptions.APIException():
            return error.status_code, str(error.detail), None
    return 0, "", None


def _by_field(detail: Any) -> dict[str, list[str]]:
    if isinstance(detail, Mapping):
        return {str(field): [str(text) for text in texts] for field, texts in detail.items()}
    return {"": [str(text) for text in detail]}


def _headers(error: Exception) -> dict[str, str]:
    """What a program needs to try again, or to ask otherwise."""
    headers = {}
    if wait := getattr(error, "wait", None):
        headers["Retry-After"] = str(int(wait) + 1)
    if challenge := getattr(error, "auth_header", None):
        headers["WWW-Authenticate"] = challenge
    return headers
