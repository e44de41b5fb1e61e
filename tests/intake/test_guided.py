"""The guided path as the server hands it out: its screens, its worker, and a draft handed over."""

from __future__ import annotations

import json
import re
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from django.test import Client, override_settings
from django.utils import timezone

from intake import guided_shell
from intake.domain.questions import QUESTIONS
from intake.guided_path import guided_path
from intake.guided_steps import PATH, further
from intake.hand_over.models import HandedDraft
from intake.hand_over.services import hand_over
from intake.hand_over.shape import ShapeError, checked

IMPORTED = re.compile(r"""(?:from|import)\s*\(?["'](\.[^"']+)["']""")
LANGUAGES = guided_shell.languages()
DRAFT = {
    "values": {"answers.gap_now.text": "3/4", "wants": ["shaft"]},
    "opened": [],
    "at": "gap_now",
}


def _kept(client: Client) -> dict[str, Any]:
    text = client.get("/sw.js").content.decode()
    found = re.match(r"self\.kept = (.*);\n", text)
    assert found
    kept: dict[str, Any] = json.loads(found.group(1))
    return kept


def test_every_screen_has_words_and_its_boxes_a_name_the_form_knows() -> None:
    steps = guided_path("en")["steps"]
    assert len({step["slug"] for step in steps}) == len(steps)
    for step in steps:
        assert step["ask"].endswith(("?", ".")), step["slug"]
        for box in step["boxes"]:
            top, _dot, rest = box["name"].partition(".")
            assert top in ("wants", "contact") or rest.split(".")[0] in QUESTIONS


def test_the_path_for_a_shaft_is_twelve_questions() -> None:
    """Without a fallback, another part or a gearbox that the shaft passes through."""
    always = [
        step.slug
        for step in PATH
        if step.opens == () or any(set(rule) == {"wants"} and rule["wants"] == "shaft"
                                   for rule in step.opens or ())
    ]  # fmt: skip
    assert len(always) == 12


def test_whatever_a_check_may_ask_has_a_screen() -> None:
    there = {step.plan.slug for step in (*PATH, *further())}
    measured = {slug for slug, question in QUESTIONS.items() if question.kind == "measured"}
    assert measured <= there


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_page_speaks_the_language_asked_for(client: Client, language: str) -> None:
    answer = client.get(f"/guided/?lang={language}")
    assert answer.headers["Content-Language"] == language
    assert f'<html lang="{language}"' in answer.content.decode()
    told = client.get(f"/guided/questions.json?lang={language}").json()
    assert told["language"] == language
    assert told["steps"][0]["slug"] == "wants"


def test_the_shell_is_the_same_for_everybody(client: Client) -> None:
    answer = client.get("/guided/")
    assert "csrf" not in answer.content.decode()
    assert "sessionid" not in answer.cookies


def test_the_worker_is_never_stale_and_has_the_whole_site(client: Client) -> None:
    answer = client.get("/sw.js")
    assert answer.headers["Content-Type"].startswith("text/javascript")
    assert answer.headers["Cache-Control"] == "no-cache"
    assert answer.headers["Service-Worker-Allowed"] == "/"


def test_what_the_worker_keeps_is_there_and_is_nobodys(client: Client) -> None:
    kept = _kept(client)
    for page in kept["pages"]:
        assert client.get(page).status_code == 200
    assert len(kept["pages"]) == 7
    root = Path(settings.STATICFILES_DIRS[0])
    for name in kept["files"]:
        assert (root / name.removeprefix("/static/")).exists()
    everything = " ".join([*kept["pages"], *kept["files"]])
    assert not re.search(r"(^|\s)/(s|desk|api|admin)/", everything)


def test_every_module_that_is_imported_is_kept(client: Client) -> None:
    root = Path(settings.STATICFILES_DIRS[0])
    kept = {name.removeprefix("/static/") for name in _kept(client)["files"]}
    for name in (one for one in guided_shell.modules() if one.endswith(".js")):
        for wanted in IMPORTED.findall((root / name).read_text("utf-8")):
            path = ((root / name).parent / wanted).resolve().relative_to(root.resolve())
            assert path.as_posix() in kept, f"{name} imports {wanted}"


def test_the_version_changes_with_the_contents(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (tmp_path / "fairgap/guided").mkdir(parents=True)
    module = tmp_path / "fairgap/guided/app.js"
    module.write_text("1")
    with override_settings(STATICFILES_DIRS=[tmp_path], DEBUG=True):
        first = guided_shell.version()
        assert guided_shell.version() == first
        module.write_text("2")
        assert guided_shell.version() != first


def test_the_manifest_makes_it_installable(client: Client) -> None:
    answer = client.get("/manifest.webmanifest")
    told = answer.json()
    assert answer.headers["Content-Type"] == "application/manifest+json"
    assert told["start_url"] == "/guided/"
    assert {icon["sizes"] for icon in told["icons"]} >= {"192x192", "512x512"}
    root = Path(settings.STATICFILES_DIRS[0])
    for icon in told["icons"]:
        head = (root / icon["src"].removeprefix("/static/")).read_bytes()[:24]
        assert head[1:4] == b"PNG"
        width = int.from_bytes(head[16:20], "big")
        assert icon["sizes"] == f"{width}x{width}"


def test_the_first_page_leads_to_the_path_and_back(client: Client, db: None) -> None:
    assert 'href="/guided/"' in client.get("/").content.decode()
    assert 'href="/"' in client.get("/guided/").content.decode()


def _post(client: Client, draft: Any) -> Any:
    return client.post("/guided/hand-over/", draft, content_type="application/json")


def test_a_draft_goes_to_another_phone_and_comes_out_the_same(client: Client, db: None) -> None:
    answer = _post(client, DRAFT)
    assert answer.status_code == 201
    told = answer.json()
    assert told["link"] == f"http://testserver/guided/#h={told['token']}"
    assert len(told["token"]) == 22
    assert told["code"]["path"].startswith("M4 4h7")
    got = client.get(f"/guided/hand-over/{told['token']}/")
    assert got.json() == DRAFT
    assert got.headers["Cache-Control"] == "no-store"


def test_after_a_day_it_is_gone(client: Client, db: None) -> None:
    handed = hand_over(draft=DRAFT)
    HandedDraft.objects.update(expires_at=timezone.now() - timedelta(seconds=1))
    assert client.get(f"/guided/hand-over/{handed.token}/").status_code == 404
    hand_over(draft=DRAFT)
    assert HandedDraft.objects.count() == 1  # what ran out is cleared away
    assert client.get("/guided/hand-over/never-was-there/").status_code == 404


@pytest.mark.parametrize(
    "draft",
    [
        [],
        "text",
        {},
        {"values": []},
        {"values": {}, "more": 1},
        {"values": {"__proto__": "x"}},
        {"values": {"answers.gap_now.text": 3}},
        {"values": {"answers.gap_now.text": "x" * 1001}},
        {"values": {"script": "x"}},
        {"values": {f"answers.a{n}": "x" for n in range(251)}},
        {"values": {}, "at": "../x"},
        {"values": {}, "opened": [{"slug": "x"}]},
        {"values": {}, "opened": [{"slug": "x", "ask": {}}]},
        {"values": {}, "opened": "x"},
    ],
)
def test_what_is_no_draft_is_refused(draft: Any) -> None:
    with pytest.raises(ShapeError):
        checked(draft)


def test_a_refusal_is_a_problem_and_nothing_is_kept(client: Client, db: None) -> None:
    assert _post(client, {"values": {"evil": "x"}}).status_code == 400
    huge = {"values": {f"answers.gap_now.{'a' * n}": "x" * 900 for n in range(1, 50)}}
    assert _post(client, huge).status_code == 413
    assert HandedDraft.objects.count() == 0
