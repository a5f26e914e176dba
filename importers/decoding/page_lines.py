"""The lines of a web page. Apart, so that a fresh process loads the parser of pages only for a page."""

from __future__ import annotations

from html.parser import HTMLParser

_CELLS, _ROWS = ("td", "th"), ("tr",)
_BREAKS = ("p", "div", "br", "h1", "h2", "h3", "h4", "li", "caption", "table", "title")
_SILENT = ("script", "style")


class PageLines(HTMLParser):
    """Gathers the lines of a page: each row of a table one, its cells set apart by tabs."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.lines: list[str] = []
        self.row: list[str] | None = None
        self.words: list[str] = []
        self.silent = 0
        self.tables = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begin a row, a cell or a line."""
        self.silent += tag in _SILENT
        self.tables += tag == "table"
        if tag in _ROWS:
            self._end_row()
            self.row = []
        elif tag in _CELLS:
            self._end_cell()
        elif tag in _BREAKS and self.row is None:
            self._end_line()
        elif tag in _BREAKS:
            self.words.append(" ")

    def handle_endtag(self, tag: str) -> None:
        """End a row, a cell or a line."""
        self.silent -= tag in _SILENT and self.silent > 0
        if tag in _CELLS and self.row is not None:
            self.row.append(self._text())
        elif tag in (*_ROWS, "table"):
            self._end_row()
        elif tag in _BREAKS and self.row is None:
            self._end_line()

    def handle_data(self, data: str) -> None:
        """Keep words."""
        if not self.silent:
            self.words.append(data)

    def close(self) -> None:
        """End what is open."""
        super().close()
        self._end_row()
        self._end_line()

    def _text(self) -> str:
        found, self.words = " ".join("".join(self.words).split()), []
        return found

    def _end_cell(self) -> None:
        if self.row is not None and "".join(self.words).strip():
            self.row.append(self._text())
        self.words = []

    def _end_row(self) -> None:
        if self.row is not None:
            self._end_cell()
            self.lines.append("\t".join(self.row))
        self.row = None

    def _end_line(self) -> None:
        if text := self._text():
            self.lines.append(text)
