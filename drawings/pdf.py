"""Marks to PDF at true size. It decides nothing; the only file that uses reportlab."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from reportlab.lib.units import mm
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from cabinet.errors import FolderError, SizeError
from cabinet.quantity import named, positive
from drawings.lettering import font_file, font_size, text_width
from drawings.marks import Anchor, Arc, Circle, Group, Ink, Line, Mark, PaperPoint, Polyline, Text
from drawings.style import Style

_FONTS = {False: "Lettering", True: "Lettering-Bold"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One page of a PDF file.

    Attributes:
        title: Its name in the outline.
        width: Width of the paper, mm.
        height: Height of the paper, mm.
        marks: What is drawn, in this order.
        style: Width, dashes and fill of each ink.
    """

    title: str
    width: float
    height: float
    marks: tuple[Mark, ...]
    style: Style

    def __post_init__(self) -> None:
        named("page", "title", self.title)
        positive(f"page {self.title!r}", "width", self.width)
        positive(f"page {self.title!r}", "height", self.height)


def write_pdf(pages: Sequence[Page], path: Path, *, title: str = "") -> None:
    """Write pages to one PDF file, each of its own size and named in the outline.

    The text is searchable and set in embedded subsets of the drawing font. The same pages give
    the same bytes: the file's date is fixed and its id comes from its content.

    Args:
        pages: In order; at least one.
        path: The file; it is replaced if it exists.
        title: Title of the file; "" takes that of the first page.

    Raises:
        SizeError: There is no page.
        UnknownNameError: The drawing font lacks a letter.
        FolderError: The file cannot be written.
    """
    if not pages:
        raise SizeError("pdf: there are no pages; there must be at least one", limit=1, value=0)
    for is_bold, name in _FONTS.items():
        pdfmetrics.registerFont(TTFont(name, str(font_file(is_bold))))
    stream = io.BytesIO()
    # Without a first font of ours the file would name Helvetica and not embed it.
    canvas = Canvas(stream, pageCompression=1, invariant=1, initialFontName=_FONTS[False])
    canvas.setTitle(title or pages[0].title)
    canvas.setCreator("")
    canvas.setProducer("")
    canvas.setAuthor("")
    canvas.setSubject("")
    for index, page in enumerate(pages):
        canvas.setPageSize((page.width * mm, page.height * mm))
        key = f"page-{index + 1}"
        canvas.bookmarkPage(key)
        canvas.addOutlineEntry(page.title, key)
        _Pen(canvas, page).draw(page.marks)
        canvas.showPage()
    canvas.showOutline()
    canvas.save()
    try:
        path.write_bytes(stream.getvalue())
    except OSError as error:
        raise FolderError(
            f"{path}: the PDF cannot be written ({error.strerror})", part=str(path)
        ) from error


class _Pen:
    """Draws the marks of one page; changes line width, dashes and colour only when needed."""

    def __init__(self, canvas: Canvas, page: Page) -> None:
        self._canvas = canvas
        self._page = page
        self._ink: Ink | None = None
        canvas.setLineJoin(1)

    def draw(self, marks: Sequence[Mark]) -> None:
        """Draw marks in their order, groups from within."""
        for mark in marks:
            if isinstance(mark, Group):
                self.draw(mark.marks)
            elif isinstance(mark, Text):
                self._text(mark)
            else:
                self._line(mark)

    def _point(self, point: PaperPoint) -> tuple[float, float]:
        # The one place where the sheet's y, down from the top, becomes the page's, up.
        return point.x * mm, (self._page.height - point.y) * mm

    def _take(self, ink: Ink) -> tuple[int, int]:
        """Make ``ink`` the current one; return whether it strokes and whether it fills."""
        line = self._page.style.line(ink)
        if ink is not self._ink:
            self._ink = ink
            self._canvas.setStrokeGray(line.grey)
            self._canvas.setFillGray(line.grey)
            self._canvas.setLineWidth(line.width * mm)
            self._canvas.setDash([part * mm for part in line.dashes])
            self._canvas.setLineCap(0 if line.dashes else 1)
        return int(line.width > 0), int(line.is_filled)

    def _take_lettering(self) -> None:
        """Fill with black from here on."""
        if self._ink is None or self._page.style.line(self._ink).grey > 0:
            self._ink = None
            self._canvas.setFillGray(0)

    def _line(self, mark: Line | Polyline | Circle | Arc) -> None:
        stroke, fill = self._take(mark.ink)
        if isinstance(mark, Line):
            self._canvas.line(*self._point(mark.start), *self._point(mark.end))
            return
        path = self._canvas.beginPath()
        match mark:
            case Polyline():
                path.moveTo(*self._point(mark.points[0]))
                for point in mark.points[1:]:
                    path.lineTo(*self._point(point))
                if mark.closed:
                    path.close()
            case Circle():
                path.circle(*self._point(mark.centre), mark.radius * mm)
            case Arc():
                x, y = self._point(mark.centre)
                radius = mark.radius * mm
                # The page's y is turned over, so what ran clockwise now runs the other way.
                path.arc(
                    x - radius,
                    y - radius,
                    x + radius,
                    y + radius,
                    startAng=-mark.start,
                    extent=mark.start - mark.end,
                )
        self._canvas.drawPath(path, stroke=stroke, fill=fill)

    def _text(self, mark: Text) -> None:
        width = text_width(mark.text, mark.height, mark.is_bold) * mm
        if width == 0:
            return
        name, size = _FONTS[mark.is_bold], font_size(mark.height, mark.is_bold) * mm
        natural = pdfmetrics.stringWidth(mark.text, name, size)
        before = {Anchor.START: 0.0, Anchor.MIDDLE: width / 2, Anchor.END: width}[mark.anchor]
        x, y = self._point(mark.at)
        line = self._canvas.beginText()
        if mark.is_upright:
            line.setTextOrigin(x - before, y)
        else:
            line.setTextTransform(0, 1, -1, 0, x, y - before)
        self._take_lettering()
        line.setFont(name, size)
        # How wide letters are set stays from text to text, so it is told with each.
        line.setHorizScale(100 * width / natural)
        line.textOut(mark.text)
        self._canvas.drawText(line)
