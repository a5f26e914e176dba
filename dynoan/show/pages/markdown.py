"""Markdown as HTML, for the window and for a page to print; pictures of the guide inside the text."""

from __future__ import annotations

import base64
from typing import Any

from dynoan.guide import picture


def to_html(text: str, *, lower: int = 0) -> str:
    """Return Markdown as an HTML fragment; raw HTML in it is not let through.

    Parameters
    ----------
    text
        Markdown, as the guide's pages hold it.
    lower
        By how many levels headings stand lower than written, where the fragment stands under a heading.
    """
    from markdown_it import MarkdownIt

    parser = MarkdownIt("commonmark", {"html": False}).enable("table")
    tokens = parser.parse(_without_notes(text))
    for token in tokens:
        if token.type in ("heading_open", "heading_close"):
            token.tag = f"h{min(int(token.tag[1]) + lower, 6)}"
        for child in token.children or ():
            if child.type == "image":
                _put_inside(child)
    made: str = parser.renderer.render(tokens, parser.options, {})
    # A wide fence is scrolled, and a keyboard must reach what is scrolled.
    return made.replace("<pre>", '<pre tabindex="0">')


def _put_inside(image: Any) -> None:
    name = str(image.attrs["src"]).rpartition("/")[2]
    image.attrs["src"] = "data:image/png;base64," + base64.b64encode(picture(name)).decode()


def _without_notes(text: str) -> str:
    """Return a page without the note for its tests above the title."""
    return text.partition("-->")[2].lstrip() if text.startswith("<!--") else text
