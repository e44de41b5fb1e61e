"""The API's door: it reads a call and answers it; the services do the work."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import IO, Any, Literal, NoReturn

from django.http import HttpResponse
from django.urls import reverse
from django.utils.translation import get_language_from_request
from rest_framework.exceptions import APIException, NotFound, ParseError, ValidationError
from rest_framework.negotiation import BaseContentNegotiation
from rest_framework.parsers import BaseParser, JSONParser
from rest_framework.renderers import BaseRenderer
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from catalog.domain.lengths import Length
from catalog.domain.tape import LengthError, read_length
from intake import api_schema, services
from intake.api_schema import described
from intake.domain.questions import QUESTIONS

MOST_BYTES = 100_000  # a full sheet is under 20 000
LONGEST_KEY = 200

Range = tuple[Length, Length] | None
Unit = Literal["in", "mm"]


class TooLarge(APIException):
    status_code = 413
    default_detail = f"Please send at most {MOST_BYTES} bytes; a full sheet is under 20 000."


class StrictJSON(JSONParser):
    """JSON that can be stored as it came: finite numbers, each key once, real characters."""

    def parse(
        self,
        stream: IO[Any],
        media_type: str | None = None,
        parser_context: Mapping[str, Any] | None = None,
    ) -> Any:
        raw = stream.read(MOST_BYTES + 1)
        if len(raw) > MOST_BYTES:
            raise TooLarge
        try:
            body = json.loads(
                raw, object_pairs_hook=_each_once, parse_float=_finite, parse_constant=_finite
            )
        except RecursionError as error:
            raise ParseError("This is nested too deeply to be a sheet.") from error
        except ValueError as error:
            raise ParseError(f"This is not JSON we can read: {error}") from error
        if b"\\u" in raw:
            _refuse_unreal(body)
        return body


def _each_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise ValueError("a name stands twice in one object")
    return found


def _finite(text: str) -> float:
    number = float(text)
    if number - number != 0:
        raise ValueError(f"{text[:20]} is not a number we can keep")
    return number


def _refuse_unreal(body: Any) -> None:
    """Escapes can write what no database keeps: a zero character, half of a pair."""
    left = [body]
    while left:
        value = left.pop()
        if isinstance(value, str):
            if any(sign == "\0" or "\ud800" <= sign <= "\udfff" for sign in value):
                raise ParseError("This contains a character that does not exist.")
        elif isinstance(value, dict):
            left += [*value, *value.values()]
        elif isinstance(value, list):
            left += value


class AlwaysJSON(BaseContentNegotiation):
    """There is one way to answer, so any Accept header gets it."""

    def select_parser(self, request: Request, parsers: Iterable[BaseParser]) -> BaseParser | None:
        sent = (request.content_type or "").partition(";")[0].strip().lower()
        return next((parser for parser in parsers if parser.media_type == sent), None)

    def select_renderer(
        self,
        request: Request,
        renderers: Iterable[BaseRenderer],
        format_suffix: str | None = None,
    ) -> tuple[BaseRenderer, str]:
        renderer = next(iter(renderers))
        return renderer, renderer.media_type or ""


class PublicCall(APIView):
    """A call anybody may make: no login, no cookie, JSON in and out."""

    parser_classes = (StrictJSON,)
    content_negotiation_class = AlwaysJSON


class ReadLength(PublicCall):
    @described(**api_schema.READ_LENGTH)
    def post(self, request: Request) -> Response:
        text, plausible, unit = _length_asked(_fields(request, "text", "question", "unit"))
        try:
            read = read_length(text, unit=unit, plausible=plausible)
        except LengthError as error:
            return Response(
                {
                    "understood": False,
                    "message": error.message,
                    "suggestions": list(error.suggestions),
                    "doubts": [],
                }
            )
        return Response(
            {
                "understood": True,
                **read.length.as_json(),
                "spoken": read.spoken,
                "unit": read.unit,
                "unit_written": read.unit_written,
                "doubts": list(read.doubts),
            }
        )


class Check(PublicCall):
    @described(**api_schema.CHECK)
    def post(self, request: Request) -> Response:
        return Response(services.dry_check(body=_object(request)).as_json())


class Submissions(PublicCall):
    @described(**api_schema.SUBMISSIONS)
    def post(self, request: Request) -> HttpResponse:
        submission = services.receive_submission(
            body=_object(request),
            idempotency_key=_idempotency_key(request),
            language=get_language_from_request(request),
        )
        link = f"{request.scheme}://{request.get_host()}{_path_of(submission.token)}"
        answer = {**submission.first_answer(), "link": link}
        # Written out here: the renderer's detour costs as much as storing a row.
        said = json.dumps(answer, ensure_ascii=False, separators=(",", ":"))
        return HttpResponse(said, "application/json", 201, headers={"Location": link})


@described(exclude=True)
class NoSuchCall(PublicCall):
    """Any other address below /api/v1/: a problem a program can read, not a page."""

    def initial(self, request: Request, *args: Any, **kwargs: Any) -> NoReturn:
        raise NotFound


def _path_of(token: str) -> str:
    return reverse("status", args=[token])


def _object(request: Request) -> dict[str, Any]:
    body = request.data
    if not isinstance(body, dict):
        raise ValidationError({"": ["Please send one JSON object."]})
    return body


def _fields(request: Request, *known: str) -> dict[str, Any]:
    body = _object(request)
    unknown = [name for name in body if name not in known]
    if unknown:
        raise ValidationError({name: ["This field is not known here."] for name in unknown})
    return body


def _length_asked(body: dict[str, Any]) -> tuple[str, Range, Unit | None]:
    errors: dict[str, list[str]] = {}
    text, slug, unit = body.get("text"), body.get("question"), body.get("unit")
    if not isinstance(text, str):
        errors["text"] = ["Please send the number as text, the way it was written."]
    if unit not in ("in", "mm", None):
        errors["unit"] = ['Please send "in", "mm" or null.']
    question = QUESTIONS.get(slug) if isinstance(slug, str) else None
    if slug is not None and question is None:
        errors["question"] = ["There is no question of this name."]
    if errors:
        raise ValidationError(errors)
    return str(text), question.widest if question else None, unit


def _idempotency_key(request: Request) -> str:
    key = str(request.headers.get("Idempotency-Key", "")).strip()
    if len(key) > LONGEST_KEY or not key.isprintable():
        wanted = f"Please use at most {LONGEST_KEY} printable characters."
        raise ValidationError({"Idempotency-Key": [wanted]})
    return key
