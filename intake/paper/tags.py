"""The tree behind a tagged PDF: what is a heading, a paragraph, a figure, a table.

ReportLab has no layer for it; its low level is open. A mark in the page's stream names a number,
the tree says what that number is. We say "tagged", not more: no validator has seen it.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

from reportlab.pdfbase import pdfdoc


@dataclass(slots=True)
class Node:
    """One element. ``marks`` are its marked pieces: (page, number on that page).

    ``alt`` stands for a picture, ``actual`` for words that are drawn with other signs.
    """

    tag: str
    alt: str = ""
    actual: str = ""
    scope: str = ""
    bbox: tuple[float, float, float, float] | None = None
    kids: list[Node] = field(default_factory=list)
    marks: list[tuple[int, int]] = field(default_factory=list)


class Tags:
    """Collects the tree while a canvas is drawn on, and writes it at the end."""

    def __init__(self, canvas: Any) -> None:
        self.canvas = canvas
        self.root = Node("Document")
        self._open = [self.root]
        self._page_marks: list[list[Node]] = [[]]

    def next_page(self) -> None:
        """A page was closed: numbers start again."""
        self._page_marks.append([])

    @contextmanager
    def group(self, tag: str, **more: Any) -> Iterator[Node]:
        """An element that holds others: Table, TR, L."""
        node = Node(tag, **more)
        self._open[-1].kids.append(node)
        self._open.append(node)
        yield node
        self._open.pop()

    @contextmanager
    def leaf(self, tag: str, **more: Any) -> Iterator[Node]:
        """An element that holds what is drawn inside the block."""
        node = Node(tag, **more)
        self._open[-1].kids.append(node)
        numbers = self._page_marks[-1]
        node.marks.append((len(self._page_marks) - 1, len(numbers)))
        self.canvas._code.append(f"/{tag} <</MCID {len(numbers)}>> BDC")
        numbers.append(node)
        yield node
        self.canvas._code.append("EMC")

    @contextmanager
    def artifact(self) -> Iterator[None]:
        """Rules, grounds and running feet: nothing to be read out."""
        self.canvas._code.append("/Artifact BMC")
        yield
        self.canvas._code.append("EMC")

    def write(self) -> None:
        """Hang the tree into the document. Call once, after the last page is closed."""
        doc = self.canvas._doc
        pages = doc.Pages.pages
        self._addresses: dict[int, str] = {}
        self._page_addresses = [_address(doc, page) for page in pages]
        top = _Raw()
        document = self._element(self.root, _address(doc, top), doc)
        numbers = []
        for at, nodes in enumerate(self._page_marks[: len(pages)]):
            owners = " ".join(self._addresses[id(node)] for node in nodes)
            numbers.append(f"{at} [{owners}]")
            _mark_page(pages[at], at)
        top.text = (
            f"<< /Type /StructTreeRoot /K {document} /ParentTreeNextKey {len(pages)} "
            f"/ParentTree << /Nums [{' '.join(numbers)}] >> >>"
        )
        doc.Catalog.StructTreeRoot = top
        doc.Catalog.MarkInfo = pdfdoc.PDFDictionary({"Marked": "true"})

    def _element(self, node: Node, parent: str, doc: Any) -> str:
        """Write one element and those below it; returns its address in the file."""
        entry = _Raw()
        address = self._addresses[id(node)] = _address(doc, entry)
        kids = [str(number) for _page, number in node.marks]
        kids += [self._element(kid, address, doc) for kid in node.kids]
        page = f" /Pg {self._page_addresses[node.marks[0][0]]}" if node.marks else ""
        alt = f" /Alt {_string(node.alt, doc)}" if node.alt else ""
        alt += f" /ActualText {_string(node.actual, doc)}" if node.actual else ""
        inside = kids[0] if len(kids) == 1 else f"[{' '.join(kids)}]"
        entry.text = f"<< /S /{node.tag} /P {parent} /K {inside}{page}{alt}{_attributes(node)} >>"
        return address


class _Raw(pdfdoc.PDFObject):
    """An object that is already written. (A tree of dictionaries costs as much as a page.)"""

    text = ""

    def format(self, _document: Any) -> bytes:
        return self.text.encode("latin-1")


def _address(doc: Any, thing: Any) -> str:
    """Where an object stands in the file: ``12 0 R``."""
    number, generation = doc.idToObjectNumberAndVersion[doc.Reference(thing).name]
    return f"{number} {generation} R"


def _string(text: str, doc: Any) -> str:
    written: bytes = pdfdoc.PDFString(text).format(doc)
    return written.decode("latin-1")


def _attributes(node: Node) -> str:
    if node.scope:
        return f" /A << /O /Table /Scope /{node.scope} >>"
    if node.bbox:
        return f" /A << /O /Layout /BBox [{' '.join(map(str, node.bbox))}] >>"
    return ""


def _mark_page(page: Any, at: int) -> None:
    """ReportLab drops page keys it does not know, unless the page says it knows them."""
    page.__NoDefault__ = [*page.__NoDefault__, "StructParents", "Tabs"]
    page.StructParents = at
    page.Tabs = pdfdoc.PDFName("S")
