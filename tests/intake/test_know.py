"""The know-how pages: reachable, short, alive, drawn, and the same for everybody."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest
from django.test import Client

from intake import know
from intake.domain.shapes import BOLD, Drawing, Text
from intake.domain.sketches import SKETCHES
from intake.know_words import SKETCH_WORDS
from intake.long_path import PLANS
from intake.short_path import ABOUT, INSIDE, PROPELLER, REST

SHORT = [plan.slug for plan in (*ABOUT, *INSIDE, *PROPELLER, *REST)]
SLUGS = [page.slug for page in know.PAGES]
MOST_WORDS = 350

each_page = pytest.mark.parametrize("slug", SLUGS)
each_sketch = pytest.mark.parametrize("name", SKETCHES)


class Read(HTMLParser):
    """What a page holds: the words of its article, its links, ids, drawings and scripts."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.links: list[str] = []
        self.ids: list[str] = []
        self.words: list[str] = []
        self.tags: list[str] = []
        self.open: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        self.tags.append(tag)
        self.ids += [told["id"] or ""] if "id" in told else []
        self.links += [told["href"] or ""] if tag == "a" else []
        left_out = tag == "svg" or "no-print" in (told.get("class") or "")
        if tag not in {"meta", "link", "br", "path", "use"}:
            self.open.append("left out" if left_out else tag)

    def handle_endtag(self, tag: str) -> None:
        if self.open and tag not in {"meta", "link", "br", "path", "use"}:
            self.open.pop()

    def handle_data(self, data: str) -> None:
        if "article" in self.open and "left out" not in self.open:
            self.words += data.split()


def read(client: Client, slug: str) -> Read:
    return Read(client.get(f"/know/{slug}/").content.decode())


@pytest.mark.parametrize("slug", ["", *(f"{slug}/" for slug in SLUGS)])
def test_a_phone_or_a_proxy_may_keep_it(client: Client, slug: str) -> None:
    first = client.get(f"/know/{slug}")
    assert first.status_code == 200
    kept = first["Cache-Control"]
    assert "public" in kept
    assert int(re.findall(r"max-age=(\d+)", kept)[0]) >= 600
    assert not first.cookies
    assert not first.wsgi_request.session.accessed
    assert {"Accept-Language", "Cookie"} <= {name.strip() for name in first["Vary"].split(",")}
    again = client.get(f"/know/{slug}", headers={"If-None-Match": first["ETag"]})
    assert again.status_code == 304
    assert again.content == b""


def test_packed_pages_are_packed_the_same_way(client: Client) -> None:
    packed = {"Accept-Encoding": "gzip"}
    one, other = (client.get("/know/pass-through/", headers=packed) for _ in range(2))
    assert one["Content-Encoding"] == "gzip"
    assert one["ETag"] == other["ETag"]
    assert len(one.content) < 8_000


def test_only_what_is_there_and_only_to_read(client: Client) -> None:
    assert client.get("/know/how-to-fly/").status_code == 404
    assert client.post("/know/").status_code == 405
    assert client.post("/know/pass-through/").status_code == 405
    assert client.head("/know/pass-through/").content == b""


def test_a_signed_in_person_gets_the_same_page(client: Client, admin_client: Client) -> None:
    page = "/know/coupling-off/"
    assert admin_client.get(page).content == client.get(page).content


def test_a_language_that_is_not_spoken_here_changes_nothing(client: Client) -> None:
    page = "/know/coupling-off/"
    assert client.get(f"{page}?lang=xx-nowhere").content == client.get(page).content
    assert client.get(page)["Content-Language"].startswith("en")


@pytest.mark.parametrize("question", SHORT)
def test_every_question_of_the_short_path_has_its_page(question: str) -> None:
    assert know.KNOW_FOR[question] in SLUGS


@pytest.mark.parametrize("question", know.KNOW_FOR)
def test_a_question_leads_to_a_place_that_is_there(client: Client, question: str) -> None:
    page, _, place = know.know_url(question).partition("#")
    assert place in Read(client.get(page).content.decode()).ids


def test_a_question_without_know_how_has_no_link() -> None:
    assert know.know_url("ship_to") == ""


@each_page
def test_pages_are_short_and_drawn(client: Client, slug: str) -> None:
    page = read(client, slug)
    assert 150 < len(page.words) <= MOST_WORDS
    assert 2 <= page.tags.count("figure") <= 3
    assert page.tags.count("desc") == page.tags.count("figure")
    assert "script" not in page.tags
    assert len(page.ids) == len(set(page.ids))


@pytest.mark.parametrize("slug", ["", *(f"{slug}/" for slug in SLUGS)])
def test_every_link_is_alive(client: Client, db: None, slug: str) -> None:
    links = Read(client.get(f"/know/{slug}").content.decode()).links
    assert len(links) > 5
    for link in links:
        path, _, place = link.partition("#")
        if path:
            assert client.get(path).status_code == 200, link
        if place in {"main", ""}:
            continue
        assert path == know.question_url("x").partition("#")[0]
        assert place.removeprefix("q=") in SHORT, link


def test_each_page_leads_back_to_a_question_of_its_own(client: Client) -> None:
    for slug in SLUGS:
        places = {link.partition("#q=")[2] for link in read(client, slug).links}
        assert any(know.KNOW_FOR.get(place) == slug for place in places), slug


def test_the_form_links_every_question_to_its_place(client: Client, db: None) -> None:
    links = Read(client.get("/").content.decode()).links
    for plan in PLANS:
        assert know.know_url(plan.slug) == "" or know.know_url(plan.slug) in links, plan.slug


@each_sketch
def test_a_sketch_stays_on_its_paper(name: str) -> None:
    drawing = SKETCHES[name]()
    texts = [shape for shape in drawing.shapes if isinstance(shape, Text)]
    assert texts
    for text in texts:
        left, right = text.span
        more = (right - left) * (BOLD - 1) / 2 if text.kind == "lit" else 0.0
        assert left - more >= 0, text
        assert right + more <= drawing.width_mm, text
        assert text.size <= text.y <= drawing.height_mm - 0.5, text


@each_sketch
def test_a_sketch_says_what_it_shows_in_words_that_can_be_translated(name: str) -> None:
    drawing = SKETCHES[name]()
    said = {drawing.title, drawing.description} | _texts(drawing)
    assert said <= set(SKETCH_WORDS)
    assert len(drawing.description) > 80


def test_no_word_of_a_sketch_is_left_over() -> None:
    drawings = [draw() for draw in SKETCHES.values()]
    said = {word for d in drawings for word in ({d.title, d.description} | _texts(d))}
    assert set(SKETCH_WORDS) == said


def test_words_that_would_not_fit_are_set_smaller() -> None:
    long = Text(5, 10, "a word that is very much longer in some other language", 5, "start")
    short = Text(5, 20, "strut", 5, "start")
    drawing = know.translated(Drawing((long, short), 60, 30, "title", "description"))
    small, same = (shape for shape in drawing.shapes if isinstance(shape, Text))
    assert small.span[1] <= 60
    assert small.size < 5
    assert same == short


def _texts(drawing: Drawing) -> set[str]:
    texts = (shape.text for shape in drawing.shapes if isinstance(shape, Text))
    return {text for text in texts if any(letter.isalpha() for letter in text)}
