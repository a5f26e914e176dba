"""The topics of the guide, read from its pages."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from importlib import resources

from dynoan.errors import LookupFault

_FILE = re.compile(r"\d+-([a-z-]+)\.md")
_HEAD = re.compile(r"\A(?:<!--.*?-->\s*)?# (?P<title>.+)\n+(?P<summary>(?:.+\n)+)")


@dataclass(frozen=True)
class Topic:
    """A page of the guide."""

    name: str  #: as it is asked for
    title: str
    summary: str  #: one sentence
    text: str  #: the whole page, Markdown


def topics() -> tuple[Topic, ...]:
    """Return all topics, in the order in which a newcomer reads them."""
    files = {file.name: file for file in resources.files("dynoan.guide").joinpath("pages").iterdir()}
    named = ((match[1], files[name]) for name in sorted(files) if (match := _FILE.fullmatch(name)))
    return tuple(_topic(name, file.read_text(encoding="utf-8")) for name, file in named)


def topic(name: str) -> Topic:
    """Return one topic.

    Raises
    ------
    LookupFault
        If there is no such topic; the nearest one is named.
    """
    known = {t.name: t for t in topics()}
    if name.casefold() in known:
        return known[name.casefold()]
    near = difflib.get_close_matches(name.casefold(), known, n=1)
    meant = f" (did you mean '{near[0]}'?)" if near else ""
    raise LookupFault(f"no topic '{name[:60]}'{meant}", hint=f"the topics: {', '.join(known)}")


def picture(name: str) -> bytes:
    """Return a picture of the guide, PNG, by its file name."""
    return resources.files("dynoan.guide").joinpath("pictures", name).read_bytes()


def _topic(name: str, text: str) -> Topic:
    head = _HEAD.match(text)
    if head is None:
        raise ValueError(f"the guide's page {name} does not begin with a title and a sentence")
    return Topic(name, head["title"].strip(), " ".join(head["summary"].split()), text)
