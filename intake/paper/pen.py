"""A pen on paper: points from the top left, tagged text that wraps, rules, and boxes to tick."""

from __future__ import annotations

from io import BytesIO
from typing import Any

from reportlab import rl_config
from reportlab.lib.colors import HexColor
from reportlab.pdfbase.pdfmetrics import getFont
from reportlab.pdfgen.canvas import Canvas

from intake.paper.fonts import BOLD, REGULAR, SUBSTITUTE, printable, register, width, wrapped
from intake.paper.tags import Tags

# Streams as bytes, not as text: a fifth smaller, and quicker without ReportLab's C part.
rl_config.useA85 = 0

MM = 72 / 25.4
WIDTH, HEIGHT = A4 = 595.28, 841.89
LETTER = 612.0, 792.0
INK, SOFT, HAIR, BRASS = (HexColor(c) for c in ("#16233a", "#4a566b", "#c9bda6", "#85580a"))
_SMALLEST = 5.8  # points: below this nobody reads


class Pen:
    """Draws one paper. ``y`` counts downwards from the top of the page, in points."""

    def __init__(
        self,
        title: str,
        author: str,
        subject: str,
        page: tuple[float, float] = A4,
        language: str = "en",
    ) -> None:
        register()
        self.wide, self.high = page
        self._bytes = BytesIO()
        self.canvas: Any = Canvas(
            self._bytes,
            pagesize=page,
            pageCompression=1,
            invariant=1,
            initialFontName=REGULAR,  # type: ignore[arg-type]
            initialFontSize=9,
            lang=language,
        )
        self.tags = Tags(self.canvas)
        self.substituted = False
        self.colour: Any = None  # what text is set in; None: not known any more
        self.canvas.setTitle(self.clean(title))
        self.canvas.setAuthor(self.clean(author))
        self.canvas.setSubject(self.clean(subject))
        self.canvas.setViewerPreference("DisplayDocTitle", "true")

    def clean(self, text: str) -> str:
        """The text as it can be printed; remembers when a sign had to be replaced."""
        ready = printable(text)
        self.substituted = self.substituted or (SUBSTITUTE in ready and SUBSTITUTE not in text)
        return ready

    # --- Text ---------------------------------------------------------------------------

    def say(
        self,
        x: float,
        y: float,
        text: str,
        *,
        size: float = 8.6,
        bold: bool = False,
        align: str = "left",
        colour: Any = INK,
        room: float = 0.0,
        after: str = "",
    ) -> float:
        """One line at a baseline; with ``room`` it is set smaller, then cut, until it fits.

        ``after`` is a space where the words go on in another place: a reader would join them.
        Returns its width.
        """
        font, text = BOLD if bold else REGULAR, self.clean(text)
        if room:
            text, size = _fitted(text, font, size, room)
        wide = width(text, font, size)
        left = x - {"left": 0.0, "right": wide, "middle": wide / 2}[align]
        if colour is not self.colour:
            self.canvas.setFillColor(colour)
            self.colour = colour
        self.canvas.setFont(font, size)
        self.draw_text(left, self.high - y, text + after)
        return wide

    def draw_text(self, x: float, y: float, text: str) -> None:
        """Clean text at a point of the canvas as it stands, in the font that is set.

        Straight into the page's stream, as the drawings' lines: a text object of ReportLab's, with
        its way of writing numbers without its C part, takes twice as long for the same.
        """
        page: Any = self.canvas
        font: Any = getFont(page._fontname)
        words = [f"BT 1 0 0 1 {x:.3f} {y:.3f} Tm"]
        for subset, signs in font.splitString(text, page._doc):
            name = font.getSubsetInternalName(subset, page._doc)
            words.append(f"{name} {page._fontsize:.3f} Tf ({page._escape(signs)}) Tj")
        page._code.append(f"{' '.join(words)} ET")

    def wrap(
        self, text: str, room: float, *, size: float = 8.6, bold: bool = False
    ) -> tuple[str, ...]:
        """The text in lines no wider than ``room``; a word too long is broken."""
        return wrapped(self.clean(text), BOLD if bold else REGULAR, size, room)

    def flow(
        self,
        x: float,
        y: float,
        text: str,
        room: float,
        *,
        size: float = 8.6,
        bold: bool = False,
        colour: Any = INK,
        leading: float = 1.32,
        most: int = 0,
    ) -> float:
        """Lines of text from a first baseline down; returns the baseline after the last.

        ``most`` limits the lines: a longer text is set smaller, and only then cut.
        """
        to_next = size * leading
        lines = self.wrap(text, room, size=size, bold=bold)
        while most and len(lines) > most and size > _SMALLEST:
            size -= 0.4
            most = round(most * (size + 0.4) / size)
            lines = self.wrap(text, room, size=size, bold=bold)
        if most and len(lines) > most:
            lines = (*lines[: most - 1], f"{lines[most - 1][:-1]}…")
        for at, line in enumerate(lines, start=1):
            after = " " if at < len(lines) else ""
            self.say(x, y, line, size=size, bold=bold, colour=colour, after=after)
            y += size * leading if after else to_next
        return y

    # --- Lines and boxes ----------------------------------------------------------------

    def rule(
        self, x1: float, x2: float, y: float, *, wide: float = 0.5, colour: Any = HAIR
    ) -> None:
        """A level rule; not read out."""
        with self.tags.artifact():
            self.canvas.setStrokeColor(colour)
            self.canvas.setLineWidth(wide)
            self.canvas.line(x1, self.high - y, x2, self.high - y)

    def box(self, x: float, y: float, side: float = 7.5) -> None:
        """A box to tick, standing on the baseline ``y``."""
        with self.tags.artifact():
            self.canvas.setStrokeColor(INK)
            self.canvas.setLineWidth(0.7)
            self.canvas.rect(x, self.high - y - 0.8, side, side, stroke=1, fill=0)

    # --- Pages --------------------------------------------------------------------------

    def next_page(self) -> None:
        self.canvas.showPage()
        self.colour = None
        self.tags.next_page()

    def finished(self) -> bytes:
        """Close the last page and give the whole paper."""
        self.canvas.showPage()
        self.tags.write()
        self.canvas.save()
        return self._bytes.getvalue()


def _fitted(text: str, font: str, size: float, room: float) -> tuple[str, float]:
    wide = width(text, font, size)
    if wide > room:
        size = max(size * room / wide, 0.78 * size)
    if width(text, font, size) <= room:
        return text, size
    while text and width(f"{text}…", font, size) > room:
        text = text[:-1]
    return f"{text}…", size
