"""The API in words a program reads: the bodies, the answers and the errors of each call.

Plain dictionaries in the form of JSON schema (OpenAPI 3.0). The reader of sheets stays the judge
of what can be read; this says what a caller may send and will get.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from drf_spectacular.utils import OpenApiExample, OpenApiParameter, OpenApiResponse

from catalog.domain.lengths import Length
from intake.domain.methods import METHODS
from intake.domain.questions import (
    BARE_PART,
    CHANGED_CHOICES,
    CHOICES,
    COMPOSITES,
    QUESTIONS,
    Question,
)

Schema = dict[str, Any]

STATES = ("cannot_measure", "not_applicable")
JSON = "application/json"
PROBLEM = "application/problem+json"

# Calls and the words for them, in the order they are written; config/openapi.py joins the two when
# somebody asks for the description, because what writes it is slow to load.
DESCRIBED: list[tuple[Any, Schema]] = []
_Call = TypeVar("_Call", bound=Callable[..., Any])


def described(**words: Any) -> Callable[[_Call], _Call]:
    """Words for a call, as ``extend_schema`` takes them."""

    def note(call: _Call) -> _Call:
        DESCRIBED.append((call, words))
        return call

    return note


def _text(longest: int = 200, **more: Any) -> Schema:
    return {"type": "string", "maxLength": longest, **more}


def _object(properties: Schema, *required: str, closed: bool = True, **more: Any) -> Schema:
    schema: Schema = {"type": "object", "properties": properties, **more}
    if required:
        schema["required"] = list(required)
    if closed:
        schema["additionalProperties"] = False
    return schema


def _list(of: Schema, **more: Any) -> Schema:
    return {"type": "array", "items": of, **more}


def _one_of(*values: str) -> Schema:
    return {"type": "string", "enum": list(values)}


def _or_null(schema: Schema) -> Schema:
    return {**schema, "nullable": True}


# --- What comes in --------------------------------------------------------------------

_STATE = _object({"state": _one_of(*STATES)}, "state", description="Unknown is said, not left out")
_METHOD = _one_of(*METHODS)
_SECOND = _object({"text": _text(), "method": _METHOD, "start_mark": _text(40)}, "text")
_READING = _object(
    {**_SECOND["properties"], "again": {**_SECOND, "description": "a second reading, taken blind"}},
    "text",
    example={"text": "44 1/8", "method": "rod"},
)
_PART: dict[str, Schema] = {
    "length": _text(description='a length as the tape showed it: "2 15/16"'),
    "count": {"type": "integer", "minimum": 0, "maximum": 10_000},
    "yes_no": {"type": "boolean"},
    "date": {"type": "string", "format": "date"},
    "method": _METHOD,
}
_LISTED: dict[str, Schema] = {
    "changed_since_shaft": _list(_one_of(*CHANGED_CHOICES), maxItems=20),
    "supports": _list(
        _object({"what": _text(), "from_face": _PART["length"]}, "what", "from_face"), maxItems=20
    ),
    "polished_bands": _list(_list(_PART["length"], minItems=2, maxItems=2), maxItems=20),
}


def _answers() -> Schema:
    """Every question of the sheet by its slug, with its own words as the description."""
    asked = {slug: row for slug, row in QUESTIONS.items() if row.kind != "elsewhere"}
    return _object({slug: _answer(row) for slug, row in asked.items()})


def _answer(question: Question) -> Schema:
    shapes = [*_shapes(question), _STATE]
    return {"description": question.ask, "anyOf": shapes}


def _shapes(question: Question) -> list[Schema]:
    match question.kind:
        case "measured":
            return [_text(description="the number alone"), _READING]
        case "choice":
            return [_one_of(*CHOICES[question.slug])]
        case "day":
            return [_PART["date"]]
        case "list":
            return [_LISTED[question.slug]]
    shape = COMPOSITES[question.slug]
    parts = {name: _part(kind) for name, kind in shape.items()}
    bare = BARE_PART.get(question.slug)
    return [_object(parts), *([parts[bare]] if bare else [])]


def _part(kind: str | tuple[str, ...]) -> Schema:
    return _one_of(*kind) if isinstance(kind, tuple) else _PART.get(kind, _text())


def _body(**more: Schema) -> Schema:
    contact = _object(
        {
            "name": _text(300),
            "phone": _text(40),
            "email": _text(254),
            "role": _one_of("owner", "yard", "crew", "surveyor"),
        },
        description="Who to call. Without a phone number or an e-mail a submission waits.",
    )
    return _object(
        {
            "channel": _one_of("form", "phone", "email", "paper", "api"),
            "tape_unit": _or_null({"type": "string", "enum": ["in", "mm", None]}),
            "wants": _list(_one_of("shaft", "coupling", "bearing"), minItems=1, uniqueItems=True),
            "contact": contact,
            "answers": _answers(),
            "alloy": _text(20, description="UNS or EN number; absent = the desk's default"),
            "use": _one_of("pleasure", "work", "passenger"),
            "job": _text(40, description="Your own order number or word"),
            **more,
        },
        "wants",
    )


_SISTER = _object(
    {"station": _one_of("port", "starboard", "centre"), "answers": {"type": "object"}},
    "station",
    description="The other shaft of the same boat, taken as a fact.",
)
_READ = _object(
    {
        "text": {"type": "string", "description": "The number as it was written"},
        "question": _or_null(_text(40, description="The slug of the question it answers")),
        "unit": _or_null({"type": "string", "enum": ["in", "mm", None]}),
    },
    "text",
)

# --- What goes out --------------------------------------------------------------------

LENGTH = _object(
    {
        "mm": {"type": "string", "description": "exact, six places", "example": "1489.075000"},
        "inch": {"type": "string", "description": "to the nearest 1/64", "example": "58 5/8"},
    },
    "mm",
    "inch",
)
_CALL = _one_of("release", "ask", "stop")
_ROUTE = _object(
    {
        "route": _one_of("boat", "tail", "old_shaft", "history"),
        "length": LENGTH,
        "standard_uncertainty_mm": {"type": "string"},
        "used": {"type": "boolean"},
        "how": {"type": "string"},
    },
    "route",
    "length",
    closed=False,
)
_SHAFT = _or_null(
    _object(
        {
            "nominal": _or_null({"type": "object"}),
            "exact_length": _or_null(LENGTH),
            "cut_length": _or_null(LENGTH),
            "overall_length": _or_null(LENGTH),
            "standard_uncertainty_mm": _or_null({"type": "string"}),
            "predicted_gap": _or_null(LENGTH),
            "fit_probability": _or_null({"type": "number", "minimum": 0, "maximum": 1}),
            "routes": _list(_ROUTE),
        },
        closed=False,
    )
)
_LIKELY = _object(
    {
        "cause": {"type": "string"},
        "label": {"type": "string"},
        "probability": _or_null({"type": "number", "minimum": 0, "maximum": 1}),
    },
    closed=False,
)
_FINDING = _object(
    {
        "check": {"type": "string"},
        "severity": _one_of("stop", "ask", "note"),
        "holds": _list({"type": "string"}),
        "message": {"type": "string"},
        "question": _or_null({"type": "string"}),
        "answers": _list({"type": "string"}),
        "source": {"type": "string"},
        "likely": _list(_LIKELY),
    },
    "check",
    "severity",
    "message",
    "answers",
    closed=False,
)
_NEXT = _or_null(
    _object(
        {
            "answer": {"type": "string"},
            "ask": {"type": "string"},
            "fit_probability_gain": _or_null({"type": "number"}),
        },
        "answer",
        "ask",
        closed=False,
    )
)
_MATCH = _object(
    {
        "code": {"type": "string"},
        "kind": {"type": "string"},
        "quantity": {"type": "number"},
        "in_stock": _or_null({"type": "boolean"}),
        "why": {"type": "string"},
    },
    "code",
    "kind",
    closed=False,
)
_VERDICT: Schema = {
    "verdict": _CALL,
    "verdicts": {"type": "object", "additionalProperties": _CALL},
    "rules_version": {"type": "string"},
    "shaft": _SHAFT,
    "findings": _list(_FINDING),
    "next_question": _NEXT,
    "parts": _list(_MATCH),
}
_STORED: Schema = {
    **_VERDICT,
    "reference": {"type": "string", "pattern": "^FG-[A-Z2-9]{6}$"},
    "link": {"type": "string", "format": "uri", "description": "the private status page"},
}
_UNDERSTOOD = _object(
    {
        "understood": {"type": "boolean"},
        "mm": {"type": "string"},
        "inch": {"type": "string"},
        "spoken": {"type": "string"},
        "unit": {"type": "string"},
        "unit_written": {"type": "boolean"},
        "message": {"type": "string"},
        "suggestions": _list({"type": "string"}),
        "doubts": _list({"type": "string"}),
    },
    "understood",
    "doubts",
)
_PROBLEM = _object(
    {
        "type": {"type": "string"},
        "title": {"type": "string"},
        "status": {"type": "integer"},
        "detail": {"type": "string"},
        "errors": {
            "type": "object",
            "description": 'one or more sentences by field, keyed like "answers.gap_now"',
            "additionalProperties": _list({"type": "string"}),
        },
    },
    "type",
    "title",
    "status",
    "detail",
)

# --- Examples -------------------------------------------------------------------------

_SHEET: Schema = {
    "channel": "api",
    "tape_unit": "in",
    "wants": ["shaft"],
    "contact": {"name": "Wilmot Tarpley", "phone": "+1 202 555 0100", "role": "owner"},
    "answers": {
        "boat_name_and_station": {"name": "Biscuit Barrel", "station": "single"},
        "drive_layout": "inline",
        "dia_clean": {"text": "1", "method": "caliper"},
        "face_to_strut_aft": {"text": "44 1/8", "method": "rod"},
        "gap_now": {"text": "3/4", "method": "drill_shank"},
        "hub_length": {"text": "2 15/16", "method": "caliper"},
        "old_length_face_to_thread": {"text": "49", "method": "tape"},
    },
}


def _told(mm: str, inch: str) -> Schema:
    return {"mm": mm, "inch": inch}


_INCH_49 = Length(49 * 25_400_000).as_json()
_ANSWERED: Schema = {
    "verdict": "release",
    "verdicts": {"shaft": "release"},
    "rules_version": "2026.1",
    "shaft": {
        "nominal": {"system": "inch", "mm": "25.400000", "inch": "1"},
        "exact_length": _INCH_49,
        "cut_length": _INCH_49,
        "overall_length": _told("1252.537500", "49 5/16"),
        "standard_uncertainty_mm": "1.45",
        "predicted_gap": _told("19.050000", "3/4"),
        "fit_probability": 0.9998,
        "routes": [],
    },
    "findings": [],
    "next_question": None,
    "parts": [],
}


def _problem(status: int, title: str, detail: str, **errors: list[str]) -> Schema:
    said: Schema = {"type": "about:blank", "title": title, "status": status, "detail": detail}
    return (
        {**said, "errors": {k.replace("__", "."): v for k, v in errors.items()}} if errors else said
    )


def _example(name: str, value: Any, **more: Any) -> OpenApiExample:
    return OpenApiExample(name, value=value, **more)


def _problems(*more: int) -> dict[tuple[int, str], OpenApiResponse]:
    """The errors of a call, each with what it looks like."""
    return {
        (status, PROBLEM): OpenApiResponse(
            response=_PROBLEM,
            description=about,
            examples=[
                _example(
                    about, value, response_only=True, status_codes=[str(status)], media_type=PROBLEM
                )
            ],
        )
        for status, (about, value) in _PROBLEMS.items()
        if status in _ALWAYS or status in more
    }


_ALWAYS = (400, 413, 415, 429)
_PROBLEMS: dict[int, tuple[str, Schema]] = {
    400: (
        "Cannot be read",
        _problem(
            400,
            "Bad Request",
            "Some of this cannot be read. Each field below says why; nothing was stored.",
            answers__gap_now=["We cannot read this as a length."],
        ),
    ),
    409: (
        "The key came before, with another body",
        _problem(409, "Conflict", "This Idempotency-Key came before, with another body."),
    ),
    413: (
        "Too large",
        _problem(413, "Request Entity Too Large", "Please send at most 100000 bytes."),
    ),
    415: (
        "Not JSON",
        _problem(415, "Unsupported Media Type", 'Unsupported media type "text/plain" in request.'),
    ),
    429: (
        "Too many calls from this address",
        _problem(429, "Too Many Requests", "Request was throttled."),
    ),
}


def _success(schema: Schema, about: str, *examples: OpenApiExample) -> OpenApiResponse:
    return OpenApiResponse(response=schema, description=about, examples=list(examples))


READ_LENGTH: dict[str, Any] = {
    "operation_id": "read_length",
    "summary": "Read one length as people write it",
    "description": "Understands what a tape, a caliper and a pencil produce, in figures or words;"
    " says in doubts what it had to assume, and refuses the rest with one kind sentence and"
    " suggestions that can be sent as they are. Not understood is an answer, not an error.",
    "tags": ["lengths"],
    "request": {JSON: _READ},
    "examples": [
        _example(
            "Asked",
            {"text": "58 5/8", "question": "face_to_strut_aft", "unit": "in"},
            request_only=True,
        ),
        _example(
            "Understood",
            {
                "understood": True,
                "mm": "1489.075000",
                "inch": "58 5/8",
                "spoken": "fifty-eight and five eighths inches",
                "unit": "in",
                "unit_written": False,
                "doubts": [],
            },
            response_only=True,
            status_codes=["200"],
        ),
        _example(
            "Understood with a doubt",
            {
                "understood": True,
                "mm": "1489.075000",
                "inch": "58 5/8",
                "spoken": "fifty-eight and five eighths inches",
                "unit": "in",
                "unit_written": False,
                "doubts": [
                    "We took the mark at the start, 10 in, off 68 5/8 in and read 58 5/8 in;"
                    " is that right?"
                ],
            },
            response_only=True,
            status_codes=["200"],
        ),
        _example(
            "Not understood",
            {
                "understood": False,
                "message": "That can be heard in two ways; please type it in figures.",
                "suggestions": ["20 5/8", "3 1/8"],
                "doubts": [],
            },
            response_only=True,
            status_codes=["200"],
        ),
    ],
    "responses": {(200, JSON): _success(_UNDERSTOOD, "Read, or not understood"), **_problems()},
}
CHECK: dict[str, Any] = {
    "operation_id": "check",
    "summary": "Check a measured boat and store nothing",
    "description": "The same checks as a submission. Needs no contact.",
    "tags": ["sheets"],
    "request": {JSON: _body(sister=_SISTER)},
    "examples": [
        _example("A sheet", _SHEET, request_only=True),
        _example("A verdict", _ANSWERED, response_only=True, status_codes=["200"]),
    ],
    "responses": {
        (200, JSON): _success(_object(_VERDICT, *_VERDICT), "The verdict"),
        **_problems(),
    },
}
SUBMISSIONS: dict[str, Any] = {
    "operation_id": "submit",
    "summary": "Send a measured boat to the desk",
    "description": "Checks and stores it. Adds the reference and the link of the private status"
    " page. Send an Idempotency-Key and a retry gets the first answer again, stored once.",
    "tags": ["sheets"],
    "parameters": [
        OpenApiParameter(
            "Idempotency-Key",
            {"type": "string", "maxLength": 200, "pattern": "^[ -~]*$"},
            OpenApiParameter.HEADER,
            description="Your own name for this request, at most 200 characters.",
        )
    ],
    "request": {JSON: _body()},
    "examples": [
        _example("A sheet", _SHEET, request_only=True),
        _example(
            "Stored",
            {**_ANSWERED, "reference": "FG-7KQ2MW", "link": "https://desk.example/s/…/"},
            response_only=True,
            status_codes=["201"],
        ),
    ],
    "responses": {
        (201, JSON): _success(_object(_STORED, *_STORED), "Stored"),
        **_problems(409),
    },
}
