"""What a report's page is built of: sections of paragraphs, tables and pictures, ready for the template."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeAlias

from markupsafe import Markup

from dynoan.show.plots.saving import svg_text
from dynoan.show.text.restated import restated
from dynoan.show.text.tables import numeric_columns
from dynoan.units import Shown


@dataclass(frozen=True)
class Words:
    """A paragraph."""

    text: str
    kind: str = "words"


@dataclass(frozen=True)
class OwnPlace:
    """Sentences under a heading of their own, within a section."""

    title: str
    texts: tuple[str, ...]
    listed: bool = False  #: whether each stands beside a mark of its own
    kind: str = "told"


@dataclass(frozen=True)
class Facts:
    """Names and values side by side."""

    pairs: tuple[tuple[str, str], ...]
    kind: str = "facts"


@dataclass(frozen=True)
class Grid:
    """A table; `right` tells which columns hold numbers."""

    caption: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    right: tuple[bool, ...]
    note: str = ""
    kind: str = "grid"


@dataclass(frozen=True)
class Picture:
    """A plot as SVG, with what it shows in words."""

    svg: Markup
    caption: str
    kind: str = "picture"


Block: TypeAlias = Words | OwnPlace | Facts | Grid | Picture


@dataclass(frozen=True)
class Section:
    """A heading with what stands under it."""

    anchor: str
    title: str
    blocks: tuple[Block, ...] = ()
    parts: tuple[Section, ...] = ()


def in_units(section: Section, units: Shown) -> Section:
    """Return a section with what its sentences tell in the units people are shown."""
    blocks = tuple(_in_units(block, units) for block in section.blocks)
    return replace(section, blocks=blocks, parts=tuple(in_units(part, units) for part in section.parts))


def _in_units(block: Block, units: Shown) -> Block:
    if isinstance(block, Words):
        return replace(block, text=restated(block.text, units))
    if isinstance(block, OwnPlace):
        return replace(block, texts=tuple(restated(text, units) for text in block.texts))
    return replace(block, note=restated(block.note, units)) if isinstance(block, Grid) else block


def grid(
    caption: str, columns: Sequence[str], rows: Sequence[Sequence[str]], note: str = "", right: Sequence[int] = ()
) -> Grid:
    """Return a table whose number columns, or those named, stand to the right."""
    kept = tuple(tuple(row) for row in rows)
    found = tuple(i in right for i in range(len(columns))) if right else tuple(numeric_columns(columns, kept))
    return Grid(caption, tuple(columns), kept, found, note)


def picture(figure: Any, caption: str) -> Picture:
    """Return a figure as a block."""
    # Safe: the SVG comes from an XML writer that escapes every text in it.
    return Picture(Markup(svg_text(figure, caption)), caption)
