"""Templates: nothing inline, and they look left like everybody else."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.architecture.code import ROOMS, ROOT, templates

ALL = templates()
each_template = pytest.mark.parametrize(
    "template", ALL, ids=[t.relative_to(ROOT / "templates").as_posix() for t in ALL]
)
INLINE = {
    "a style attribute": re.compile(r"<[^>]*\sstyle\s*=", re.IGNORECASE),
    "a style element": re.compile(r"<style\b", re.IGNORECASE),
    "an event attribute": re.compile(r"<[^>]*\son[a-z]+\s*=", re.IGNORECASE),
    "an htmx event attribute": re.compile(r"\shx-on\b", re.IGNORECASE),
    "an inline script": re.compile(r"<script\b(?![^>]*\bsrc\s*=)[^>]*>\s*\S", re.IGNORECASE),
    "a javascript address": re.compile(r"javascript:", re.IGNORECASE),
    "an address of another host": re.compile(r"(?:src|href|action)\s*=\s*[\"']?(?:https?:)?//"),
    "text taken as markup": re.compile(r"\|\s*safe\b|\{%\s*autoescape\s+off"),
}


@each_template
@pytest.mark.parametrize("what", INLINE)
def test_nothing_inline(template: Path, what: str) -> None:
    """The content security policy would refuse it; the reader should not have to find out."""
    text = re.sub(r"\{#.*?#\}", "", template.read_text("utf-8"), flags=re.DOTALL)
    found = INLINE[what].search(text)
    assert found is None, f"{template.name} holds {what}: {found and found.group()[:80]}"


@each_template
def test_templates_look_left(template: Path) -> None:
    """What a template includes or extends stands in its own room, or further left."""
    parts = template.relative_to(ROOT / "templates").parts
    room = parts[0] if parts[0] in ROOMS else None
    allowed = ROOMS[: ROOMS.index(room) + 1] if room else ()
    named = re.findall(r"\{%\s*(?:include|extends)\s+[\"']([^\"']+)", template.read_text("utf-8"))
    wrong = [name for name in named if name.split("/")[0] in set(ROOMS) - set(allowed)]
    assert not wrong, f"{template.name} looks right, at {wrong}"


@each_template
def test_a_partial_names_what_it_needs(template: Path) -> None:
    """Included parts of a room get only what they are handed: ``... with x=x only``."""
    tags = re.findall(r"\{%\s*include\s+([^%]+)%\}", template.read_text("utf-8"))
    wrong = [tag for tag in tags if " with " in tag and not tag.rstrip().endswith(" only")]
    assert not wrong, f"{template.name} includes without only: {wrong}"


@each_template
def test_no_hidden_words(template: Path) -> None:
    """People's words go through translate, so that they can be read and changed in one place."""
    text = template.read_text("utf-8")
    text = re.sub(r"\{%\s*blocktranslate.*?endblocktranslate\s*%\}", " ", text, flags=re.DOTALL)
    text = re.sub(r"\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}|<!--.*?-->", " ", text, flags=re.DOTALL)
    text = re.sub(r"<(script|style|svg|code)\b.*?</\1>", " ", text, flags=re.DOTALL)
    words = re.findall(r">([^<>]*[A-Za-z]{3,}[^<>]*)<", text)
    assert not words, f"{template.name} says {words[:3]} without translate"


def test_the_rules_see_the_templates() -> None:
    assert len(ALL) > 5
