"""The API: the contract to the letter, every error a problem, and no input that breaks it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest
import schemathesis
from django.core.cache import cache
from django.core.handlers.wsgi import WSGIHandler
from django.core.signals import request_finished, request_started
from django.db import close_old_connections
from django.test import Client, override_settings
from drf_spectacular.validation import validate_schema
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from intake.models import SheetVersion, Submission
from tests.intake.bodies import SHORT, a_body

READ, CHECK, SUBMIT = "/api/v1/read-length/", "/api/v1/check/", "/api/v1/submissions/"
CALLS = (READ, CHECK, SUBMIT)
PROBLEM = "application/problem+json"

pytestmark = pytest.mark.django_db


def post(path: str, body: Any, **more: Any) -> Any:
    raw = body if isinstance(body, (bytes, str)) else json.dumps(body)
    return Client().post(path, raw, content_type=more.pop("type", "application/json"), **more)


def is_problem(response: Any, status: int) -> dict[str, Any]:
    assert (response.status_code, response["Content-Type"]) == (status, PROBLEM)
    problem: dict[str, Any] = json.loads(response.content)
    assert {"type", "title", "status", "detail"} <= set(problem)
    assert problem["status"] == status
    return problem


# --- read-length ----------------------------------------------------------------------


def test_a_length_is_read_back_in_both_systems() -> None:
    asked = {"text": "58 5/8", "question": "face_to_strut_aft", "unit": "in"}
    assert post(READ, asked).json() == {
        "understood": True,
        "mm": "1489.075000",
        "inch": "58 5/8",
        "spoken": "fifty-eight and five eighths inches",
        "unit": "in",
        "unit_written": False,
        "doubts": [],
    }


def test_not_understood_is_an_answer_with_something_to_try() -> None:
    response = post(READ, {"text": "58 5/0", "unit": "in"})
    said = response.json()
    assert response.status_code == 200
    assert said["understood"] is False
    assert said["message"]
    assert isinstance(said["suggestions"], list)
    assert said["doubts"] == []


def test_with_no_unit_known_the_range_decides_and_a_doubt_says_so() -> None:
    said = post(READ, {"text": "1489", "question": "face_to_strut_aft", "unit": None}).json()
    assert (said["mm"], said["unit"], said["unit_written"]) == ("1489.000000", "mm", False)
    assert said["doubts"]


@pytest.mark.parametrize(
    ("body", "field"),
    [
        ({}, "text"),
        ({"text": 58}, "text"),
        ({"text": "58", "unit": "cm"}, "unit"),
        ({"text": "58", "question": "shoe_size"}, "question"),
        ({"text": "58", "question": 3}, "question"),
        ({"text": "58", "colour": "red"}, "colour"),
    ],
)
def test_a_wrong_request_to_read_is_told_by_field(body: dict[str, Any], field: str) -> None:
    assert list(is_problem(post(READ, body), 400)["errors"]) == [field]


# --- check ----------------------------------------------------------------------------


def test_a_check_answers_in_the_form_of_the_contract() -> None:
    answer = post(CHECK, a_body(**SHORT)).json()
    assert list(answer) == [
        "verdict",
        "verdicts",
        "rules_version",
        "shaft",
        "findings",
        "next_question",
        "parts",
    ]
    assert answer["verdict"] == "ask"
    finding = answer["findings"][0]
    assert set(finding) == {
        "check",
        "severity",
        "holds",
        "message",
        "question",
        "answers",
        "source",
        "likely",
    }


def test_a_check_stores_nothing_and_needs_no_contact() -> None:
    body = {name: value for name, value in a_body().items() if name != "contact"}
    assert post(CHECK, body).status_code == 200
    assert not Submission.objects.exists()


def test_a_check_takes_the_other_side_along() -> None:
    sister = {"station": "port", "answers": a_body()["answers"]}
    assert post(CHECK, {**a_body(), "sister": sister}).status_code == 200
    errors = is_problem(post(SUBMIT, {**a_body(), "sister": sister}), 400)["errors"]
    assert list(errors) == ["sister"]


@pytest.mark.parametrize("path", [CHECK, SUBMIT])
@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"answers": {"gap_now": "three fingers"}}, "answers.gap_now"),
        ({"answers": {"shoe_size": "44"}}, "answers.shoe_size"),
        ({"answers": {"gap_now": {"text": "1", "tool": "x"}}}, "answers.gap_now.tool"),
        ({"colour": "red"}, "colour"),
        ({"wants": ["sails"]}, "wants"),
        ({"tape_unit": "cm"}, "tape_unit"),
        ({"contact": {"phone": "ring me"}}, "contact.phone"),
    ],
)
def test_what_cannot_be_read_is_told_at_its_path(
    path: str, change: dict[str, Any], field: str
) -> None:
    errors = is_problem(post(path, {**a_body(), **change}), 400)["errors"]
    assert field in errors
    assert all(isinstance(text, str) and text for text in errors[field])
    assert not Submission.objects.exists()


# --- submissions ----------------------------------------------------------------------


def test_a_submission_is_stored_and_answered_with_its_link() -> None:
    response = post(SUBMIT, a_body())
    submission = Submission.objects.get()
    answer = response.json()
    assert response.status_code == 201
    assert answer["reference"] == submission.reference
    assert answer["link"] == f"http://testserver/s/{submission.token}/" == response["Location"]
    assert answer == {
        **submission.current.answer,
        "reference": submission.reference,
        "link": answer["link"],
    }
    assert "stack" not in answer


def test_a_submission_says_what_a_check_says() -> None:
    stored = post(SUBMIT, a_body(**SHORT)).json()
    checked = post(CHECK, a_body(**SHORT)).json()
    assert {name: stored[name] for name in checked} == checked


def test_a_retry_gets_the_same_answer() -> None:
    key = {"HTTP_IDEMPOTENCY_KEY": "order-17"}
    first, again = post(SUBMIT, a_body(), **key), post(SUBMIT, a_body(), **key)
    assert (again.status_code, again.content) == (first.status_code, first.content)
    assert Submission.objects.count() == 1
    is_problem(post(SUBMIT, a_body(boat="Otter"), **key), 409)
    assert Submission.objects.count() == 1


def test_without_a_key_every_call_is_a_request_of_its_own() -> None:
    assert post(SUBMIT, a_body()).json() != post(SUBMIT, a_body()).json()
    assert Submission.objects.count() == 2


@pytest.mark.parametrize("length", [200, 201])
def test_a_key_has_at_most_200_characters(length: int) -> None:
    response = post(SUBMIT, a_body(), HTTP_IDEMPOTENCY_KEY="k" * length)
    if length == 200:
        assert response.status_code == 201
    else:
        assert list(is_problem(response, 400)["errors"]) == ["Idempotency-Key"]


def test_nothing_a_customer_writes_is_taken_for_markup() -> None:
    name = "<b>O'Tarpley & \u202e=cmd()</b> 船"
    body = a_body()
    body["contact"]["name"] = name
    assert post(SUBMIT, body).status_code == 201
    assert Submission.objects.get().contact_name == name
    assert SheetVersion.objects.get().body["contact"]["name"] == name


# --- Errors that are the same everywhere ----------------------------------------------


@pytest.mark.parametrize("path", CALLS)
@pytest.mark.parametrize(
    "raw",
    [
        b"",
        b"{",
        b"nonsense",
        b'{"text": NaN}',
        b'{"text": 1e999}',
        b'{"a": 1, "a": 2}',
        b"\xff\xfe\x00",
        b'{"text": "\\u0000"}',
        b'{"text": "\\ud800"}',
        b'{"\\u0000": 1}',
        b"[" * 50_000,
        b'{"a":' * 15_000,
        b'{"text": ' + b"9" * 5000 + b"}",
    ],
)
def test_what_is_not_json_is_refused(path: str, raw: bytes) -> None:
    is_problem(post(path, raw), 400)


@pytest.mark.parametrize("path", CALLS)
@pytest.mark.parametrize("raw", ["[]", '"text"', "3", "null", "true"])
def test_the_top_level_is_an_object(path: str, raw: str) -> None:
    is_problem(post(path, raw), 400)


@pytest.mark.parametrize("path", CALLS)
def test_other_methods_types_and_sizes_are_refused(path: str) -> None:
    for method in ("get", "put", "patch", "delete"):
        response = getattr(Client(), method)(path)
        is_problem(response, 405)
        assert "POST" in response["Allow"]
    is_problem(post(path, "text=58", type="application/x-www-form-urlencoded"), 415)
    is_problem(post(path, "<x/>", type="application/xml"), 415)
    is_problem(post(path, b'{"text": "' + b"x" * 200_000 + b'"}'), 413)


@pytest.mark.parametrize("address", ["nowhere/", "submissions", "submissions/1/", ""])
def test_an_address_that_is_none_is_a_problem_too(address: str) -> None:
    is_problem(Client().get(f"/api/v1/{address}"), 404)
    is_problem(post(f"/api/v1/{address}", {}), 404)


@pytest.mark.parametrize("path", CALLS)
@pytest.mark.parametrize("accept", ["text/html", "application/xml", "*/*", "nonsense"])
def test_whatever_is_accepted_the_answer_is_json(path: str, accept: str) -> None:
    response = post(path, {"text": "58"}, HTTP_ACCEPT=accept)
    assert response["Content-Type"] in ("application/json", PROBLEM)


def test_a_bug_is_a_problem_with_a_number_to_quote() -> None:
    from intake.signals import submission_ready

    def trip(**_: object) -> None:
        raise RuntimeError("the room next door fell over")

    submission_ready.connect(trip)
    try:
        response = Client(raise_request_exception=False).post(
            SUBMIT, json.dumps(a_body()), content_type="application/json"
        )
    finally:
        submission_ready.disconnect(trip)
    problem = is_problem(response, 500)
    assert response["X-Request-ID"] in problem["detail"]


def test_public_calls_set_no_cookie_and_need_no_token() -> None:
    response = Client(enforce_csrf_checks=True).post(
        SUBMIT, json.dumps(a_body()), content_type="application/json"
    )
    assert response.status_code == 201
    assert not response.cookies


def test_too_many_calls_from_one_address_are_told_when_to_come_back() -> None:
    from rest_framework.throttling import SimpleRateThrottle

    from config.throttle import ByAddress
    from intake import api

    cache.clear()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(SimpleRateThrottle, "THROTTLE_RATES", {"address": "2/min"})
        patch.setattr(api.PublicCall, "throttle_classes", [ByAddress])
        answers = [post(READ, {"text": "58", "unit": "in"}) for _ in range(3)]
        elsewhere = post(READ, {"text": "58", "unit": "in"}, REMOTE_ADDR="192.0.2.7")
    cache.clear()
    assert [answer.status_code for answer in answers] == [200, 200, 429]
    is_problem(answers[2], 429)
    assert 0 < int(answers[2]["Retry-After"]) <= 61
    assert elsewhere.status_code == 200


# --- Described ------------------------------------------------------------------------


def schema() -> dict[str, Any]:
    found: dict[str, Any] = Client().get("/api/v1/openapi.json").json()
    return found


def test_the_description_is_valid_openapi() -> None:
    validate_schema(schema())  # type: ignore[no-untyped-call]


def test_the_description_names_every_call_and_every_answer() -> None:
    described = schema()
    assert described["openapi"].startswith("3.")
    assert sorted(described["paths"]) == sorted(CALLS)
    for path, good in ((READ, "200"), (CHECK, "200"), (SUBMIT, "201")):
        post_ = described["paths"][path]["post"]
        answers = post_["responses"]
        assert {good, "400", "413", "415", "429"} <= set(answers)
        assert ("409" in answers) == (path == SUBMIT)
        assert PROBLEM in answers["400"]["content"]
        assert answers["400"]["content"][PROBLEM]["examples"]
        assert post_["requestBody"]["content"]["application/json"]["examples"]
    parameters = described["paths"][SUBMIT]["post"]["parameters"]
    assert [(p["in"], p["name"]) for p in parameters] == [("header", "Idempotency-Key")]


def test_every_question_is_described() -> None:
    from intake.domain.questions import QUESTIONS

    body = schema()["paths"][CHECK]["post"]["requestBody"]["content"]["application/json"]
    told = body["schema"]["properties"]["answers"]["properties"]
    assert set(told) == {slug for slug, row in QUESTIONS.items() if row.kind != "elsewhere"}


def test_the_examples_of_the_description_work() -> None:
    for path in CALLS:
        content = schema()["paths"][path]["post"]["requestBody"]["content"]["application/json"]
        for example in content["examples"].values():
            assert post(path, example["value"]).status_code in (200, 201)


def test_the_documentation_can_be_read_and_only_it_may_style_itself() -> None:
    page = Client().get("/api/v1/docs/")
    assert page.status_code == 200
    assert "'unsafe-inline'" in page["Content-Security-Policy"]
    script = page["Content-Security-Policy"].partition("script-src")[2].partition(";")[0]
    assert "unsafe" not in script
    assert "unsafe" not in post(READ, {"text": "1"})["Content-Security-Policy"]


described = schemathesis.openapi.from_wsgi("/api/v1/openapi.json", WSGIHandler())


@pytest.fixture
def one_connection() -> Iterator[None]:
    """A request from outside Django's own test client ends the connection; the test needs it."""
    for signal in (request_started, request_finished):
        signal.disconnect(close_old_connections)
    yield
    for signal in (request_started, request_finished):
        signal.connect(close_old_connections)


@pytest.mark.usefixtures("one_connection")
@described.parametrize()
@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
def test_every_call_keeps_its_description(case: schemathesis.Case[Any]) -> None:
    case.call_and_validate(
        checks=[
            not_a_server_error,
            status_code_conformance,
            content_type_conformance,
            response_schema_conformance,
        ]
    )


# --- Nothing breaks it ----------------------------------------------------------------

JUNK = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4),
    max_leaves=12,
)
SLUGS = st.sampled_from(sorted({*a_body()["answers"], "bolts", "supports", "thread", "pieces"}))
NAMES = st.sampled_from(["text", "method", "start_mark", "again", "state", "count", "is", "kind"])
ANSWER = JUNK | st.dictionaries(NAMES, JUNK, max_size=4)
BODY = st.fixed_dictionaries(
    {},
    optional={
        "channel": JUNK,
        "tape_unit": st.sampled_from(["in", "mm", None]) | JUNK,
        "wants": st.just(["shaft"]) | JUNK,
        "contact": st.dictionaries(st.sampled_from(["name", "phone", "email", "role"]), JUNK)
        | JUNK,
        "answers": st.dictionaries(SLUGS, ANSWER, max_size=6) | JUNK,
        "alloy": JUNK,
        "use": JUNK,
        "job": JUNK,
        "sister": JUNK,
    },
)
FUZZ = settings(max_examples=120, deadline=None, suppress_health_check=list(HealthCheck))


@FUZZ
@given(BODY)
def test_no_body_breaks_a_check_or_a_submission(body: dict[str, Any]) -> None:
    for path in (CHECK, SUBMIT):
        assert post(path, body).status_code in (200, 201, 400)


@FUZZ
@given(st.dictionaries(st.sampled_from(["text", "question", "unit"]), JUNK))
def test_nothing_breaks_the_reading_of_a_length(body: dict[str, Any]) -> None:
    assert post(READ, body).status_code in (200, 400)


@FUZZ
@given(st.binary(max_size=60))
def test_no_bytes_break_anything(raw: bytes) -> None:
    for path in CALLS:
        assert post(path, raw).status_code in (200, 400)


@override_settings(ALLOWED_HOSTS=["desk.example"])
def test_the_link_is_where_the_caller_reached_us() -> None:
    response = post(SUBMIT, a_body(), HTTP_HOST="desk.example", secure=True)
    assert response.json()["link"].startswith("https://desk.example/s/")
