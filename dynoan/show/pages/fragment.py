"""Blocks of text as an HTML fragment, for a notebook or a page."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from dynoan.show.text.blocks import Block, Paragraph, Table
from dynoan.show.text.tables import numeric_columns


def fragment(blocks: Sequence[Block]) -> str:
    """Return paragraphs and tables as HTML; whatever came from files is escaped."""
    return "\n".join(_block(b) for b in blocks)


def _block(block: Block) -> str:
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Paragraph) and (block.drawn or block.typed):
        return f"<pre>{escape(block.text)}</pre>"
    return _paragraph(block.text)


def _paragraph(text: str) -> str:
    return f"<p>{'<br>'.join(escape(line) for line in text.splitlines())}</p>" if text.strip() else ""


def _table(table: Table) -> str:
    right = numeric_columns(table.columns, table.rows)
    head = _row(table.columns, "th", right)
    body = "".join(_row(row, "td", right) for row in table.rows)
    title = f"<caption>{escape(table.title)}</caption>" if table.title else ""
    return f"<table>{title}<thead>{head}</thead><tbody>{body}</tbody></table>"


def _row(cells: Sequence[str], tag: str, right: Sequence[bool]) -> str:
    made = (
        f'<{tag} align="{"right" if is_right else "left"}">{escape(cell)}</{tag}>'
        for cell, is_right in zip(cells, right, strict=True)
    )
    return f"<tr>{''.join(made)}</tr>"
