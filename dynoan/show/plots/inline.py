"""A saved SVG made fit to stand inside a page: no ids that clash, nothing a strict content policy would refuse."""

from __future__ import annotations

import hashlib
import re
import xml.etree.ElementTree as ET

SVG = "http://www.w3.org/2000/svg"
XLINK = "http://www.w3.org/1999/xlink"
#: `font: bold 9px 'DejaVu Sans', sans-serif` has no attribute of its own and is taken apart
_FONT = re.compile(r"^(?P<before>.*?)(?P<size>[\d.]+px)(?:/\S+)?\s+(?P<family>.+)$")
_FAMILY = "'DejaVu Sans', Verdana, 'Liberation Sans', Arial, sans-serif"
_ROOT = {"stroke-linejoin": "round", "stroke-linecap": "butt"}


def inline_svg(text: str, title: str = "") -> str:
    """Return an SVG document as an element for a page.

    Style attributes become presentation attributes (a policy without inline styles keeps those), the document-wide
    style rule, the metadata and the fixed size go, and every id gets a prefix taken from the content and title.
    """
    ET.register_namespace("", SVG)
    root = ET.fromstring(text)
    for name in ("metadata", "defs/style"):
        _drop(root, name)
    for element in root.iter():
        _plain_style(element)
    _prefix_ids(root, "s" + hashlib.sha256((title + text).encode()).hexdigest()[:10])
    for name in ("width", "height", "version"):
        root.attrib.pop(name, None)
    root.attrib.update(_ROOT | {"role": "img", "class": "plot"})
    if title:
        root.set("aria-label", title)
    return ET.tostring(root, encoding="unicode").replace(" />", "/>")


def _drop(root: ET.Element, path: str) -> None:
    *above, last = path.split("/")
    for parent in root.iter():
        if above and parent.tag != f"{{{SVG}}}{above[-1]}":
            continue
        for child in parent.findall(f"{{{SVG}}}{last}"):
            parent.remove(child)


def _plain_style(element: ET.Element) -> None:
    style = element.attrib.pop("style", "")
    for part in filter(None, (p.strip() for p in style.split(";"))):
        name, _, value = (p.strip() for p in part.partition(":"))
        if name == "font":
            element.attrib.update(_font(value))
        elif name == "font-family":
            element.set(name, _FAMILY)
        elif name not in {"white-space", "transform-origin"}:
            element.set(name, value)


def _font(value: str) -> dict[str, str]:
    match = _FONT.match(value)
    if match is None:
        return {"font-family": _FAMILY}
    out = {"font-size": match["size"], "font-family": _FAMILY}
    for word in match["before"].split():
        if word in {"italic", "oblique"}:
            out["font-style"] = word
        elif word == "bold" or word.isdigit():
            out["font-weight"] = word
    return out


def _prefix_ids(root: ET.Element, prefix: str) -> None:
    used = " ".join(v for e in root.iter() for k, v in e.attrib.items() if k != "id")
    for element in root.iter():
        own = element.attrib.pop("id", None)
        if own is not None and f"#{own}" in used:
            element.set("id", f"{prefix}{own}")
        for name, value in list(element.attrib.items()):
            if name == f"{{{XLINK}}}href":
                del element.attrib[name]
                name = "href"
            if name == "href" and value.startswith("#"):
                element.set(name, f"#{prefix}{value[1:]}")
            elif value.startswith("url(#"):
                element.set(name, f"url(#{prefix}{value[5:]}")
            elif name == "href":
                element.set(name, value)
