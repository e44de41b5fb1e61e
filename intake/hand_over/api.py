"""The phones' door for handing a draft over: no cookie, no login, counted by address."""

from __future__ import annotations

from django.urls import reverse
from rest_framework.exceptions import APIException, NotFound, ValidationError
from rest_framework.request import Request
from rest_framework.response import Response

from intake.api import PublicCall
from intake.api_schema import described
from intake.hand_over import selectors, services
from intake.hand_over.shape import ShapeError, checked
from intake.paper.square_code import square_code

MOST_BYTES = 20_000


class TooMuch(APIException):
    status_code = 413
    default_detail = f"A draft has at most {MOST_BYTES} bytes."


@described(exclude=True)
class HandOver(PublicCall):
    """POST a draft: 201 with its link, and the link as a square code to point a camera at."""

    def post(self, request: Request) -> Response:
        if int(request.headers.get("Content-Length") or 0) > MOST_BYTES:
            raise TooMuch
        try:
            handed = services.hand_over(draft=checked(request.data))
        except ShapeError as error:
            raise ValidationError({"draft": [str(error)]}) from error
        link = request.build_absolute_uri(f"{reverse('guided')}#h={handed.token}")
        size, path = square_code(link)
        answer = {
            "token": handed.token,
            "link": link,
            "expires_at": handed.expires_at.isoformat(timespec="seconds"),
            "code": {"size": size, "path": path},
        }
        return Response(answer, 201, headers={"Cache-Control": "no-store"})


@described(exclude=True)
class Handed(PublicCall):
    """GET the draft of that name, while its day lasts."""

    def get(self, request: Request, token: str) -> Response:
        handed = selectors.handed_draft(token)
        if handed is None:
            raise NotFound
        return Response(handed.draft, headers={"Cache-Control": "no-store"})
