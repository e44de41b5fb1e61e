"""An id for every request, the address it really came from, and no key in the log."""

import logging
import re
import secrets
from collections.abc import Callable
from contextvars import ContextVar

from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse

Answer = Callable[[HttpRequest], HttpResponse]

request_id: ContextVar[str] = ContextVar("request_id", default="-")


class RequestId:
    """Give each request a short id: in every log line, in the answer, on the 500 page."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        token = request_id.set(secrets.token_hex(4))
        try:
            response = self.get_response(request)
            response["X-Request-ID"] = request_id.get()
            return response
        finally:
            request_id.reset(token)


class WithRequestId(logging.Filter):
    """Lets a log line say which request it belongs to; "-" outside of one."""

    def filter(self, record: logging.LogRecord) -> bool:
        record.request_id = request_id.get()
        return True


class WithoutLinks(logging.Filter):
    """Takes out of a log line what opens a customer's page: a private link is a key.

    >>> line = logging.LogRecord("x", 20, "", 0, "GET /s/%s/answer/", ("Qm9hdEJvYXRCb2F0",), None)
    >>> WithoutLinks().filter(line), line.getMessage()
    (True, 'GET /s/…/answer/')
    """

    _KEY = re.compile(r"(/(?:s|quiet|hand-over)/|#h=)[\w:.~-]{16,}")

    def filter(self, record: logging.LogRecord) -> bool:
        said = record.getMessage()
        told = self._KEY.sub(r"\1…", said)
        if told != said:
            record.msg, record.args = told, ()
        return True


class ClientAddress:
    """Behind PROXIES reverse proxies, put the caller's own address into REMOTE_ADDR.

    Each proxy adds one address at the right of X-Forwarded-For; what stands further left
    was written by the caller and proves nothing.
    """

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        seen = request.headers.get("X-Forwarded-For", "").split(",")
        if 0 < settings.PROXIES <= len(seen) and seen[-settings.PROXIES].strip():
            request.META["REMOTE_ADDR"] = seen[-settings.PROXIES].strip()
        return self.get_response(request)


class PlainAddress:
    """No page has a NUL in its address, and PostgreSQL takes none in a text: it is nowhere."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        if "\0" in request.path_info:
            raise Http404
        return self.get_response(request)
