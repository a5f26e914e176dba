"""Tables of a web page, which some programs save as a "sheet", as text with a tab between cells."""

from __future__ import annotations


def is_markup(head: bytes) -> bool:
    """Whether a file begins as a web page or a part of one."""
    start = head.lstrip(b"\xef\xbb\xbf\r\n\t ")[:400].lower()
    return start.startswith((b"<html", b"<!doctype html", b"<table"))


def tables_as_text(text: str) -> str | None:
    """Return the tables of a page, and the words around them, as tab-separated lines; None where it has no table."""
    from importers.decoding.page_lines import PageLines

    page = PageLines()
    page.feed(text)
    page.close()
    return "\n".join(page.lines) + "\n" if page.tables else None
