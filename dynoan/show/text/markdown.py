"""Markdown as blocks of text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from dynoan.show.text.blocks import Block, Paragraph, Table

if TYPE_CHECKING:
    from markdown_it.token import Token

_UNDER = {"h1": "=", "h2": "-"}
MEASURE = 92  #: columns of prose


def from_markdown(text: str) -> list[Block]:
    """Return headings, paragraphs, lists, tables and fences as blocks, an empty line between them."""
    from markdown_it import MarkdownIt

    tokens = MarkdownIt("commonmark").enable("table").parse(text)
    out: list[Block] = []
    for block in _blocks(tokens):
        if out and not (_is_item(out[-1]) and _is_item(block)):
            out.append(Paragraph(""))
        out.append(block)
    return out


def _is_item(block: Block) -> bool:
    return isinstance(block, Paragraph) and block.hang > 0


def _blocks(tokens: Sequence[Token]) -> Iterator[Block]:
    """Return blocks, walking the flat stream of tokens."""
    lists: list[str] = []  # the mark of the next item, a list inside another behind it
    rows: list[list[str]] = []
    begun = False  # whether an item's mark is out
    for before, token in zip([None, *tokens[:-1]], tokens, strict=True):
        match token.type:
            case "fence" | "code_block":
                yield Paragraph("\n".join(f"    {line}".rstrip() for line in token.content.splitlines()), typed=True)
            case "bullet_list_open" | "ordered_list_open":
                lists.append("-" if token.type.startswith("b") else "1.")
            case "bullet_list_close" | "ordered_list_close":
                lists.pop()
            case "list_item_open":
                begun = False
                lists[-1] = token.info + "." if token.info else lists[-1]
            case "tr_open":
                rows.append([])
            case "table_close":
                yield Table(rows[0], rows[1:])
                rows = []
            case "inline" if rows:
                rows[-1].append(plain(token))
            case "inline":
                yield _said(before.tag if before else "p", plain(token), lists, begun)
                begun = True


def _said(tag: str, text: str, lists: Sequence[str], begun: bool) -> Paragraph:
    if tag in _UNDER:
        return Paragraph(f"{text}\n{_UNDER[tag] * len(text)}")
    if not lists:
        return Paragraph(text, measure=MEASURE)
    indent, mark = "  " * (len(lists) - 1), lists[-1]
    return Paragraph(f"{indent}{' ' * len(mark) if begun else mark} {text}", measure=MEASURE, hang=len(mark) + 1)


def plain(token: Token) -> str:
    """Return inline Markdown as plain text: marks taken away, pictures as what they show."""
    parts = []
    for child in token.children or ():
        match child.type:
            case "softbreak" | "hardbreak":
                parts.append(" ")
            case "image":
                parts.append(f"(picture: {child.content})")
            case _:
                parts.append(child.content)
    return "".join(parts)
