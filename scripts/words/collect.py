"""Every text a customer may read, found in templates, in Python, and in the pure domain.

Templates and Python mark theirs; the pure domain has no Django, so there every literal text with a
space in it counts, and a formatted one becomes a pattern: ``f"{size} is short"`` is
``{1} is short``.
"""

from __future__ import annotations

import ast
import csv
import itertools
import re
from collections.abc import Iterator
from pathlib import Path

from django.template.base import Lexer, Token, TokenType
from django.utils.text import smart_split
from django.utils.translation import trim_whitespace

from catalog.domain.materials import material
from quotes.domain.alloy_words import ALLOYS
from scripts.words.joined import JOINED, JOINED_OF_QUOTES
from scripts.words.po import Entry

ROOT = Path(__file__).resolve().parents[2]
ROOMS = ("staff", "catalog", "intake", "quotes", "config")

# Pages of the staff stay English; what they share with customers is named in neither list.
STAFF_TEMPLATES = re.compile(
    r"^(catalog/|staff/|registration/|_nav|intake/(_call|_check|_desk|_insights|_verdict_full|"
    r"_findings?\.|_rules|calling/|customers/|desk_drafts/|finding/|call|checks|desk|insights|limits|submission)|"
    r"quotes/(desk_|_price|_quote_state|_told|_shop_findings|_rate_set|_bench_box|calendar|costs|insight/|invoice|payments|rates|replay/|shop_|terms))"
)
STAFF_MODULES = re.compile(
    r"^(staff/|catalog/(admin|models|show|views)|config/management|intake/(admin|calls|check_book|"
    r"desk(_(?!words|show)\w+)?\.py|insights|limits_page|models\.py|read_limits|rule_views|"
    r"season/|management/|limit_sets|calling/|customers/|desk_drafts/|finding/|records|jobs)|"
    r"quotes/(admin|desk|management|links/models|bundles/desk|(calendar|cases|findings|inspecting|invoices|payments|"
    r"cost_model|insight|rate_sets|receiving|replay|sending|shop|stock|terms|today)/))"
)
# Where the pure domain speaks to customers.
DOMAIN = (
    *("catalog/domain/refusals.py", "catalog/domain/sayings.py", "catalog/domain/by_range.py"),
    "intake/checks/*.py",
    *("intake/domain/refusals.py", "intake/domain/slip_words.py", "intake/domain/methods.py"),
    *("intake/domain/drawing_words.py", "intake/domain/question_words.py"),
    "intake/domain/mistake_words.py",
    *("quotes/domain/texts.py", "quotes/domain/words.py", "quotes/domain/paper_facts.py"),
    *("quotes/domain/lead.py", "quotes/domain/lines.py", "quotes/domain/pricing.py"),
    *("quotes/domain/freight.py", "quotes/paper/quote.py", "quotes/paper/boat.py"),
    *("quotes/paper/numbers.py", "quotes/paper/prices.py", "quotes/paper/choices.py"),
    *("quotes/paper/answer.py", "quotes/paper/columns.py", "quotes/paper/unset.py"),
    "quotes/domain/remake_price.py",
    *("quotes/domain/besides.py", "quotes/domain/paper_words.py"),
    *("quotes/domain/alloys.py", "quotes/domain/alloy_words.py", "quotes/domain/margin.py"),
    *("quotes/domain/options.py", "quotes/domain/chosen.py", "quotes/domain/suggestions.py"),
    *("quotes/domain/still_chosen.py", "quotes/domain/tax.py", "quotes/domain/terms.py"),
    *("quotes/domain/part_lines.py", "quotes/domain/shaft_lines.py", "quotes/domain/agreed.py"),
    *("quotes/domain/bundle.py", "quotes/bundles/making.py", "quotes/paper/bundle.py"),
    *("quotes/domain/fitting.py", "quotes/paper/fitting.py", "quotes/paper/invoice.py"),
)
# Tables whose values are read, in files that say nothing else to customers.
NAMED = (("quotes/domain/stations.py", "NAMES"),)
# Where whole sentences are raised or returned among what programs read.
SENTENCES = (
    *("intake/domain/answers.py", "intake/domain/plates.py", "intake/domain/angles.py"),
    *("intake/domain/reading.py", "intake/domain/keys.py", "intake/domain/sheet.py"),
    *("intake/domain/lifecycle.py", "intake/own_answers.py", "intake/second_reading.py"),
    *("intake/services.py", "intake/answering/services.py"),
    *("quotes/answering/services.py", "quotes/issuing/services.py", "quotes/domain/lifecycle.py"),
    *("quotes/choosing/services.py", "quotes/bundles/services.py", "quotes/checks/accepted.py"),
    "quotes/invoices/making.py",
    *("catalog/domain/several.py", "catalog/domain/shades.py", "catalog/domain/tape.py"),
    *("catalog/domain/figures.py", "catalog/domain/words.py", "catalog/domain/numerals.py"),
)
# What the reader in the browser says as well.
READER = re.compile(
    r"catalog/domain/|intake/domain/(answers|plates|angles|refusals|reading|slip_words)\.py"
)
_MARKS = {"_", "gettext", "gettext_lazy", "gettext_noop", "ngettext", "ngettext_lazy"}


def everything() -> dict[str, Entry]:
    """Each text once, with the files it stands in."""
    found: dict[str, Entry] = {}
    for text, plural, place in (
        *of_templates(),
        *of_catalogue(),
        *of_metals(),
        *of_python(),
        *of_domain(),
        *of_sentences(),
    ):
        entry = found.setdefault(text, Entry(text))
        entry.plural = entry.plural or plural
        entry.places.append(place)
    return dict(sorted(found.items(), key=lambda one: (min(one[1].places), one[0])))


Found = Iterator[tuple[str, str, str]]


# --- Templates ----------------------------------------------------------------------------


def customer_templates() -> list[Path]:
    """Templates a customer may meet."""
    base = ROOT / "templates"
    files = sorted([*base.rglob("*.html"), *base.rglob("*.txt")])
    return [f for f in files if not STAFF_TEMPLATES.match(f.relative_to(base).as_posix())]


def of_templates() -> Found:
    """What stands in translate and blocktranslate."""
    for path in customer_templates():
        place = path.relative_to(ROOT).as_posix()
        tokens = iter(Lexer(path.read_text("utf-8")).tokenize())
        for token in tokens:
            if token.token_type != TokenType.BLOCK:
                continue
            words = list(smart_split(token.contents))
            if words[0] in ("translate", "trans") and words[1][0] in "\"'":
                yield ast.literal_eval(words[1]), "", place
            elif words[0] in ("blocktranslate", "blocktrans"):
                yield *_block(tokens, "trimmed" in words), place


def _block(tokens: Iterator[Token], trimmed: bool) -> tuple[str, str]:
    forms = [""]
    for token in tokens:
        if token.token_type == TokenType.TEXT:
            forms[-1] += token.contents.replace("%", "%%")
        elif token.token_type == TokenType.VAR:
            forms[-1] += f"%({token.contents})s"
        elif token.contents == "plural":
            forms.append("")
        else:
            break
    one, many = (trim_whitespace(form) if trimmed else form for form in (*forms, "")[:2])
    return one, many


# --- Python -------------------------------------------------------------------------------


def of_python() -> Found:
    """What stands in ``_("…")`` and its kin."""
    for room in ROOMS:
        for path in sorted((ROOT / room).rglob("*.py")):
            place = path.relative_to(ROOT).as_posix()
            if not STAFF_MODULES.match(place):
                yield from _marked(ast.parse(path.read_text("utf-8")), place)


def _marked(tree: ast.AST, place: str) -> Found:
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "id", "") or getattr(node.func, "attr", "")
        words = [a.value for a in node.args if isinstance(a, ast.Constant)]
        texts = [word for word in words if isinstance(word, str)]
        if name in _MARKS and texts:
            plural = texts[1] if name.startswith("ngettext") else ""
            yield texts[0], plural, place


# --- The desk's own words -----------------------------------------------------------------


def of_catalogue() -> Found:
    """Each kind of part as a quote's line names it, its numbers left open."""
    place = "catalog/data/demo_catalog.csv"
    with (ROOT / place).open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            count = itertools.count(1)
            words = row["description"][:1].upper() + row["description"][1:]
            text = _FIGURES.sub(lambda _: f"{{{next(count)}}}", words)  # noqa: B023
            yield text, "", place
            yield text[:1].lower() + text[1:], "", place  # within a sentence


def of_metals() -> Found:
    """What each metal of the choice is called."""
    for alloy in ALLOYS:
        known = material(alloy)
        if known is not None:
            yield known.name, "", "quotes/domain/alloy_words.py"


_FIGURES = re.compile(r"\b[A-Z]?\d[\d/.x-]*(?: x \d[\d/.-]*)*")


# --- The pure domain ----------------------------------------------------------------------

_UNSEEN_ARGUMENTS = {"source", "name", "subject", "author"}
_A_SENTENCE = re.compile(r"[A-Za-z]{2,}")


def of_domain() -> Found:
    """Literal texts of the domain that customers can meet."""
    yield from ((text, "", "catalog/domain/ and intake/domain/") for text in JOINED)
    yield from ((text, "", "quotes/") for text in JOINED_OF_QUOTES)
    yield from of_tables()
    for pattern in DOMAIN:
        for path in sorted(ROOT.glob(pattern)):
            place = path.relative_to(ROOT).as_posix()
            only_asks = place.endswith("question_words.py")
            tree = ast.parse(path.read_text("utf-8"))
            texts = _asks(tree) if only_asks else _texts(tree, checks="/checks/" in place)
            yield from ((text, "", place) for text in texts)


def of_tables() -> Found:
    """The values of the tables of ``NAMED``."""
    for place, name in NAMED:
        for node in ast.parse((ROOT / place).read_text("utf-8")).body:
            if isinstance(node, ast.Assign) and getattr(node.targets[0], "id", "") == name:
                yield from ((text, "", place) for text in _texts(node.value, checks=False))


def of_sentences() -> Found:
    """Whole sentences only: a capital, some words, and a full stop or question mark."""
    for name in SENTENCES:
        tree = ast.parse((ROOT / name).read_text("utf-8"))
        yield from ((text, "", name) for text in _sentences(tree))


_SENTENCE = re.compile(r"[A-Z{].* .*[.?]", re.DOTALL)


def _sentences(node: ast.AST) -> Iterator[str]:
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.Expr) and isinstance(child.value, ast.Constant):
            continue
        text = _template(child)
        if text is None:
            yield from _sentences(child)
        elif _SENTENCE.fullmatch(text):
            yield text


def _asks(tree: ast.AST) -> Iterator[str]:
    """Of a question's row only what is asked; the rest is for the desk."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Words":
            row = [a.value for a in node.args if isinstance(a, ast.Constant)]
            yield str(row[2])


def _texts(node: ast.AST, *, checks: bool) -> Iterator[str]:
    children = node.values if isinstance(node, ast.Dict) else ast.iter_child_nodes(node)
    for child in children:
        if _is_unseen(node, child):
            continue
        text = _template(child)
        if text is None:
            yield from _texts(child, checks=checks)
        elif _speaks(text, alone=not checks and isinstance(node, (ast.Dict, ast.Tuple))):
            yield text


def _is_unseen(node: ast.AST, child: ast.AST) -> bool:
    """Docstrings, names of sources, what programs read."""
    if isinstance(child, ast.Expr) and isinstance(child.value, ast.Constant):
        return True
    if isinstance(node, ast.keyword) and node.arg in _UNSEEN_ARGUMENTS:
        return True
    if isinstance(child, (ast.Raise, ast.Import, ast.ImportFrom)):
        return True
    if isinstance(child, ast.Call) and getattr(child.func, "attr", "") in (
        "compile",
        "leaf",
        "group",
    ):
        return True
    return isinstance(child, ast.arg) or (
        isinstance(node, ast.AnnAssign) and child is node.annotation
    )


def _speaks(text: str, *, alone: bool) -> bool:
    """Words of people rather than of programs. ``alone``: where single words are told as well."""
    bare = re.sub(r"\{\w*\}", "", text)
    if re.search(r"\}\{\d", text):  # two holes side by side: nobody can tell where one ends
        return False
    if not _A_SENTENCE.search(bare) or _NO_WORDS.fullmatch(text):
        return False
    if re.fullmatch(r"[\w.-]+", text):
        if text in _PROGRAMS:
            return False
        return text in WORDS or (alone and _A_WORD.fullmatch(text) is not None)
    return True


# What is spelled alike in every language, and joins of two texts that are said one by one.
_NO_WORDS = re.compile(
    r"[\d /.]+(mm|in)|[{}\d /]+(in|mm|ft|to|or)?[{}\d /]*( in)?|(BAR|KY-|NT-) ?\{1\}|.*\w\|\w.*"
    r"|.*[\"″”]+|just \{0\}|\{0\} \{1\} of an inch|common practice|SAE J755.*practice"
    r"|\{1\} to \{2\}|\{1\} lb, \{2\} kg|.*\.(pdf|py)|[a-z-]+:[a-z-]+|Spare: "
    r"|(FB-|EN |UNS |reading\.|station\.)\{1\}"
)
_PROGRAMS = frozenset({
    *("in", "first", "last", "title", "wrong", "count", "text", "changed", "drawing", "parts"),
    *("rotation", "side", "Column", "ask", "country", "postcode", "layout", "thread", "key"),
    *("fit", "rush", "heat", "certificate", "long", "part", "spare", "size", "run", "lift"),
})  # fmt: skip
_A_WORD = re.compile(r"[A-Z]?[a-z]{2,}")
# Single words of the domain that are read on pages and papers.
WORDS = frozenset(
    {"wider", "narrower", "measured", "computed", "assumed", "pleasure", "engine", "When", "Terms"}
    | {"Boat", "Side", "From", "Freight", "Tax", "Mind", "Total", "none"}
    | {"Option", "good", "fair", "Delivery", "To", "Together", "Shaft"}
)


def _template(node: ast.AST) -> str | None:
    if isinstance(node, ast.Constant):
        return node.value if isinstance(node.value, str) else None
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        left, right = _template(node.left), _template(node.right)
        return None if left is None or right is None else left + right
    if not isinstance(node, ast.JoinedStr):
        return None
    out, count = "", 0
    for part in node.values:
        if isinstance(part, ast.Constant):
            out += str(part.value)
        else:
            count += 1
            out += f"{{{count}}}"
    return out
