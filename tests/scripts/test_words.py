"""The catalogue is complete, current, and says the same thing in its placeholders."""

from __future__ import annotations

import re
from gettext import GNUTranslations
from pathlib import Path

import pytest

from scripts.words import po
from scripts.words.__main__ import FOLDER, reader_table
from scripts.words.collect import (
    STAFF_TEMPLATES,
    customer_templates,
    everything,
    of_domain,
    of_python,
    of_sentences,
    of_templates,
)
from tests.english import english_left

HOLES = re.compile(r"%\(\w+\)s|\{\w*\}")
MEND = "run: python -m scripts.words, and translate what it names in locale/es"


@pytest.fixture(scope="module")
def found() -> dict[str, po.Entry]:
    return everything()


@pytest.fixture(scope="module")
def kept() -> dict[str, po.Entry]:
    return po.read(FOLDER / "django.po")


def test_everything_customers_read_is_translated(
    found: dict[str, po.Entry], kept: dict[str, po.Entry]
) -> None:
    missing = [
        f"{min(entry.places)}: {text}"
        for text, entry in found.items()
        if text not in kept or not kept[text].is_done or kept[text].plural != entry.plural
    ]
    assert missing == [], MEND


def test_nothing_is_kept_that_nobody_says(
    found: dict[str, po.Entry], kept: dict[str, po.Entry]
) -> None:
    assert sorted(set(kept) - set(found)) == [], MEND


def test_the_compiled_catalogue_is_current(kept: dict[str, po.Entry]) -> None:
    assert (FOLDER / "django.mo").read_bytes() == po.compiled(kept, "es"), MEND


def test_the_phones_table_is_current(found: dict[str, po.Entry], kept: dict[str, po.Entry]) -> None:
    for text, entry in found.items():
        entry.said = kept[text].said
    assert (FOLDER / "reader.json").read_text("utf-8") == reader_table(found), MEND


def test_gettext_reads_it(kept: dict[str, po.Entry]) -> None:
    with (FOLDER / "django.mo").open("rb") as file:
        read = GNUTranslations(file)
    for text, entry in kept.items():
        assert read.gettext(text) == entry.said[0] or entry.plural
    assert read.ngettext("and %(n)s more", "and %(n)s more", 2) == "y %(n)s más"
    assert read.info()["content-type"] == "text/plain; charset=UTF-8"


def test_every_placeholder_stays(kept: dict[str, po.Entry]) -> None:
    for entry in kept.values():
        for text, said in zip((entry.text, entry.plural), entry.said, strict=False):
            assert sorted(HOLES.findall(said)) == sorted(HOLES.findall(text)), text
            assert said[:1].isspace() == text[:1].isspace(), text
            assert said.count("<") == text.count("<"), text


def test_no_translation_has_english_in_it(kept: dict[str, po.Entry]) -> None:
    for text, entry in kept.items():
        # What a program types stays: "what and from_face"; so does a language's own name.
        if text.startswith(("Give ", "A state stands")):
            continue
        for said in entry.said:
            assert english_left(HOLES.sub(" ", said)) == [], text


def test_a_catalogue_written_and_read_is_the_same(tmp_path: Path) -> None:
    hostile = 'a "quote", a \\ back\\slash,\na line and a\ttab: ñ “é” {1} %(n)s'
    entries = {
        hostile: po.Entry(hostile, "", ("¡" + hostile,), ["x.py"]),
        "one": po.Entry("one", "many", ("uno", "muchos"), []),
        "open": po.Entry("open"),
    }
    path = tmp_path / "es" / "django.po"
    po.write(path, entries.values(), "es")
    again = po.read(path)
    assert {text: entry.said for text, entry in again.items()} == {
        hostile: ("¡" + hostile,),
        "one": ("uno", "muchos"),
        "open": ("",),
    }
    (tmp_path / "x.mo").write_bytes(po.compiled(again, "es"))
    with (tmp_path / "x.mo").open("rb") as file:
        read = GNUTranslations(file)
    assert read.gettext(hostile) == "¡" + hostile
    assert [read.ngettext("one", "many", n) for n in (1, 0, 5)] == ["uno", "muchos", "muchos"]
    assert read.gettext("open") == "open"


# --- The collector finds what it should ---------------------------------------------------


def test_it_sees_every_kind_of_place() -> None:
    templates, python = set(of_templates()), set(of_python())
    assert ("Send it to the desk", "", "templates/intake/review.html") in templates
    assert any(plural for _text, plural, _place in templates)
    assert any(place == "intake/short_path.py" for _text, _plural, place in python)
    domain = {text for text, _plural, _place in of_domain()}
    assert "Two readings differ: {1} and {2}." in domain
    assert "caliper" in domain
    raised = {text for text, _plural, _place in of_sentences()}
    assert "Give a whole number, such as 2." in raised


def test_only_the_staffs_templates_are_left_out() -> None:
    """A new page is a customer's until it is named among the staff's."""
    names = {path.name for path in customer_templates()}
    assert {"measure.html", "guided.html", "status.html", "404.html", "quote.txt"} <= names
    assert STAFF_TEMPLATES.match("intake/desk.html")
    assert not STAFF_TEMPLATES.match("intake/anything_new.html")
