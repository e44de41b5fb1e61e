"""What is measured, each against its floor. Every function takes how many pairs to time."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator, Mapping
from importlib.resources import files
from io import BytesIO
from itertools import cycle
from pathlib import Path
from typing import Any

from reportlab.lib.pagesizes import A4
from reportlab.pdfgen.canvas import Canvas

from catalog.domain import tape
from catalog.domain.tape import LengthError, read_length
from intake.domain.reading import read_sheet
from intake.evaluate import evaluate
from quotes.domain.facts import QuoteFacts
from quotes.domain.order import read_order
from quotes.domain.paper_facts import QuoteRow, quote_facts
from quotes.domain.pricing import price
from quotes.domain.rates import Rates
from quotes.paper.quote import quote_pdf
from tests.bench.timing import Ratio, compare
from tests.given import a_body, a_sheet, demo_stock

ROOT = Path(__file__).resolve().parents[2]

Body = Mapping[str, Any]
Make = Callable[[], bytes]


def demo_bodies() -> list[Body]:
    """The demo shop's requests, as the API takes them."""
    text = files("quotes").joinpath("demo/bodies.json").read_text("utf-8")
    return [request["body"] for request in json.loads(text)]


# --- P1, P4 and P10: processes of their own -----------------------------------------------


def submissions(pairs: int, *, database_url: str = "") -> Ratio:
    """P1 on a throw-away database: a file, or one beside the database of this address."""
    return _of_its_own("submissions", pairs, database_url)


def typing(pairs: int, *, database_url: str = "") -> Ratio:
    """P4 on a throw-away database, in the same way."""
    return _of_its_own("clerks", pairs, database_url)


def _of_its_own(name: str, pairs: int, database_url: str) -> Ratio:
    with tempfile.TemporaryDirectory(prefix="fairgap-bench-") as folder:
        where = database_url or f"sqlite:///{folder}/empty.sqlite3"
        environ = {"DATABASE_URL": where, "FAIRGAP_BENCH_FOLDER": folder}
        ran = _run([sys.executable, "-m", f"tests.bench.{name}", str(pairs)], ROOT, environ)
    return Ratio(**json.loads(ran))


def start_up(pairs: int) -> Ratio:
    """P10: ``manage.py check`` over the same of a new Django project with one app."""
    with tempfile.TemporaryDirectory(prefix="fairgap-bench-") as folder:
        floor = _one_app_project(Path(folder) / "floor")
        # Libraries use what only the tests installed when it is there; in production it is not.
        (Path(folder) / "sitecustomize.py").write_text(_HIDE)
        environ = {"DATABASE_URL": f"sqlite:///{folder}/empty.sqlite3", "PYTHONPATH": folder}

        def check(project: Path) -> str:
            return _run([sys.executable, "manage.py", "check"], project, environ)

        return compare(lambda: check(ROOT), lambda: check(floor), pairs=pairs)


_HIDE = 'import sys\n\nsys.modules["requests"] = sys.modules["pygments"] = None\n'


def _one_app_project(folder: Path) -> Path:
    folder.mkdir()
    _run([sys.executable, "-m", "django", "startproject", "floor", "."], folder, {})
    _run([sys.executable, "manage.py", "startapp", "one"], folder, {})
    with (folder / "floor" / "settings.py").open("a") as settings:
        settings.write('\nINSTALLED_APPS += ["one"]\n')
    return folder


def _run(command: list[str], folder: Path, environ: Mapping[str, str]) -> str:
    """What a command prints. Only what it needs of our own environment reaches it."""
    ours = ("DATABASE_URL", "REDIS_URL", "DEBUG", "DJANGO_SETTINGS_MODULE")
    kept = {name: value for name, value in os.environ.items() if name not in ours}
    given = {"SECRET_KEY": "the-bench-keeps-no-secrets", "HTTPS": "false", **environ}
    ran = subprocess.run(
        command, cwd=folder, env=kept | given, capture_output=True, text=True, check=False
    )
    if ran.returncode:
        raise RuntimeError(ran.stderr.strip().rpartition("\n")[2] or f"{command} failed")
    return ran.stdout


# --- P2: reading a length -------------------------------------------------------------

_PLAIN = re.compile(
    r"(?:[Øø]\s*)?(\d+(?:[.,]\d+)?)(?:[ -]+(\d+)/(\d+))?\s*(in|mm|cm|ft|m|\"|')?\.?"
)
_TAPE = """58|58.625|58 5/8|58-5/8|58 - 5/8|58 5/8"|58⅝|58 5⁄8 in.|4' 10 5/8"|4 ft 10.625 in"""
_TAPE += "|1489mm|148,9 cm|1.489 m|Ø 25 mm"
# About one text in twenty has words in it, or characters that only look plain.
_SAID = "58\N{NO-BREAK SPACE}5/8|about 58 5/8|58 5/8 shy|58 and a half"
_SAID += "|fifty-eight and five eighths"


def readable_texts() -> list[str]:
    """Every length the demo's customers wrote, and the tape's language, each once."""
    written = [text for body in demo_bodies() for text in _texts(body["answers"])]
    texts = [*_TAPE.split("|"), *_SAID.split("|"), *written]
    return [text for text in dict.fromkeys(texts) if _is_read(text)]


def _texts(answer: Any) -> Iterator[str]:
    if isinstance(answer, dict):
        if isinstance(answer.get("text"), str) and answer.get("method"):
            yield answer["text"]
        for inner in answer.values():
            yield from _texts(inner)


def _is_read(text: str) -> bool:
    try:
        return bool(read_length(text))
    except LengthError:
        return False


def reading(pairs: int) -> Ratio:
    """P2: ``read_length``, nothing remembered, over one match of a compiled pattern."""
    texts, forget, match = readable_texts(), tape._read.cache_clear, _PLAIN.match

    def ours() -> None:
        forget()
        for text in texts:
            read_length(text)

    def floor() -> None:
        for text in texts:
            match(text)

    return compare(ours, floor, pairs=pairs, calls=60, floor_calls=360)


# --- P3: judging a sheet --------------------------------------------------------------


def judging(pairs: int, *, with_next_question: bool) -> Ratio:
    """P3: ``evaluate`` on the clean sheet over 50 calls that do nothing."""
    sheet, stock = a_sheet(), demo_stock()

    def ours() -> None:
        evaluate(sheet, stock, with_next_question=with_next_question)

    return compare(ours, _fifty_empty_calls, pairs=pairs, calls=30, floor_calls=1000)


def judging_the_demo(pairs: int) -> Ratio:
    """P3 for one sheet of the demo, on average: most of them have something to ask."""
    sheets, stock = [read_sheet(body) for body in demo_bodies()], demo_stock()
    each = cycle(sheets)

    def ours() -> None:
        evaluate(next(each), stock)

    return compare(ours, _fifty_empty_calls, pairs=pairs, calls=len(sheets), floor_calls=1000)


def _nothing(case: object) -> None:
    pass


_FIFTY = [_nothing] * 50


def _fifty_empty_calls() -> None:
    for check in _FIFTY:
        check(None)


# --- P5: the paper --------------------------------------------------------------------


def papers() -> list[Make]:
    """From a stored sheet to the bytes of its quote: the clean sheet, and the demo's."""
    bodies = [a_body(), *demo_bodies()]
    return [paper for body in bodies if (paper := _paper(body)) is not None]


def _paper(body: Body) -> Make | None:
    record = evaluate(read_sheet(body), demo_stock()).as_record()
    if not record["shaft"]:
        return None
    rates, order = Rates(), read_order(body, record)
    priced = price(order, demo_stock(), rates)
    row = QuoteRow(
        number="Q-2026-000001",
        version=1,
        issued="25 Nov 2026",
        valid_until="25 Dec 2026",
        lines=[line.as_json() for line in priced.lines],
        goods=priced.goods,
        freight=priced.freight,
        freight_words=priced.freight_words,
        tax=priced.tax,
        total=priced.total,
        reference="FG-ABCDEF",
    )

    def made() -> bytes:
        facts: QuoteFacts = quote_facts(row, body, record, rates)
        return quote_pdf(facts)

    return made


def quote_paper(pairs: int) -> Ratio:
    """P5: the whole quote with its drawing over two full pages in the printer's own fonts."""
    each = cycle(papers())
    return compare(lambda: next(each)(), _plain_paper, pairs=pairs, calls=4, floor_calls=4)


def paper_sizes() -> list[float]:
    """The size of each demo quote in kB."""
    return [len(paper()) / 1000 for paper in papers()]


def _plain_paper() -> bytes:
    """Sixty lines of text and forty strokes a page; a quote has about twice as many."""
    out = BytesIO()
    canvas = Canvas(out, pagesize=A4, pageCompression=1)
    for page in (1, 2):
        for line in range(60):
            canvas.setFont("Helvetica-Bold" if line % 10 == 0 else "Helvetica", 9)
            canvas.drawString(42, 800 - 12.5 * line, f"{page}.{line} face to strut {line} 5/8 in")
        for stroke in range(40):
            canvas.line(42, 790 - 18 * stroke, 550, 790 - 18 * stroke)
        canvas.showPage()
    canvas.save()
    return out.getvalue()
