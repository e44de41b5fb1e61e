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
    """One element. ``marks`` are its marked pieces: (page, number on that page)."""

    tag: str
    alt: str = ""
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
        self._refs: dict[int, Any] = {}
        top = _dictionary(Type=_name("StructTreeRoot"))
        top_ref = doc.Reference(top)
        top["K"] = self._element(self.root, top_ref, doc, pages)
        numbers: list[Any] = []
        for at, nodes in enumerate(self._page_marks[: len(pages)]):
            owners = pdfdoc.PDFArray([self._refs[id(node)] for node in nodes])
            numbers += [at, doc.Reference(owners)]
            _mark_page(pages[at], at)
        top["ParentTree"] = _dictionary(Nums=pdfdoc.PDFArray(numbers))
        top["ParentTreeNextKey"] = len(pages)
        doc.Catalog.StructTreeRoot = top
        doc.Catalog.MarkInfo = _dictionary(Marked="true")

    def _element(self, node: Node, parent: Any, doc: Any, pages: list[Any]) -> Any:
        entry = _dictionary(S=_name(node.tag), P=parent)
        ref = self._refs[id(node)] = doc.Reference(entry)
        kids: list[Any] = [number for _page, number in node.marks]
        kids += [self._element(kid, ref, doc, pages) for kid in node.kids]
        entry["K"] = kids[0] if len(kids) == 1 else pdfdoc.PDFArray(kids)
        if node.marks:
            entry["Pg"] = doc.Reference(pages[node.marks[0][0]])
        if node.alt:
            entry["Alt"] = pdfdoc.PDFString(node.alt)
        if attributes := _attributes(node):
            entry["A"] = attributes
        return ref


def _attributes(node: Node) -> Any:
    if node.scope:
        return _dictionary(O=_name("Table"), Scope=_name(node.scope))
    if node.bbox:
        return _dictionary(O=_name("Layout"), BBox=pdfdoc.PDFArray(list(node.bbox)))
    return None


def _mark_page(page: Any, at: int) -> None:
    """ReportLab drops page keys it does not know, unless the page says it knows them."""
    page.__NoDefault__ = [*page.__NoDefault__, "StructParents", "Tabs"]
    page.StructParents = at
    page.Tabs = _name("S")


def _name(text: str) -> Any:
    return pdfdoc.PDFName(text)


def _dictionary(**entries: Any) -> Any:
    made = pdfdoc.PDFDictionary(entries)
    made.multiline = False
    return made
