"""What a page or a picture says: the words people read, and the numbers a page carries for itself."""

from __future__ import annotations

import html
import json
import re
from typing import Any

from dynoan.show.pages.trackside.packing import Kind, unpacked

_HIDDEN = re.compile(r"<(script|style|svg)\b.*?</\1>", re.DOTALL)
_DATA = re.compile(r'<script type="application/json"[^>]*>(.*?)</script>', re.DOTALL)
_BLOCK = re.compile(r"</?(?:tr|p|h\d|li|ul|ol|dt|dd|section|table|div|title|header|footer|figcaption|option)\b[^>]*>")
_COMMENT = re.compile(r"<!-- (.*?) -->")


def page_text(text: str, suffix: str) -> Any:
    """Return the lines of a text file; of a page its words and data; of an SVG its words and how much is drawn."""
    if suffix == ".svg":
        return {"words": _COMMENT.findall(text), "paths": text.count("<path"), "uses": text.count("<use")}
    if suffix != ".html":
        return text.splitlines()
    data = [_decoded(json.loads(found)) for found in _DATA.findall(text)]
    return {"words": _visible(text), "drawings": text.count("<svg"), "data": data}


def _visible(page: str) -> list[str]:
    bare = re.sub(r"<[^>]+>", " ", _BLOCK.sub("\n", _HIDDEN.sub(" ", page)))
    lines = (" ".join(html.unescape(line).split()) for line in bare.split("\n"))
    return [line for line in lines if line]


def _decoded(value: Any, shape: tuple[int, ...] = ()) -> Any:
    """Return JSON with packed tables of whole numbers unpacked again."""
    if isinstance(value, dict):
        if isinstance(value.get("data"), str) and "scale" in value:
            # Tables with a shape of their own are as fine as those that begin at nothing.
            kind: Kind = "<u1" if "from" in value and "shape" not in value else "<u2"
            whole = unpacked(value["data"], tuple(value.get("shape", shape)), kind).astype(float).ravel()
            return {**value, "data": (value.get("from", 0.0) + value["scale"] * whole).tolist()}
        inner = tuple(value["shape"]) if "shape" in value else shape
        return {k: _decoded(v, inner) for k, v in value.items()}
    return [_decoded(v, shape) for v in value] if isinstance(value, list) else value
