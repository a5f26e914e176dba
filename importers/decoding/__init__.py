"""Bytes to text.

In go a file's bytes and its name. Out come its `Encoding`, the first 64 KiB as text, and the whole as bytes in which
digits and marks are ASCII; or a refusal that says what the file is instead. The tables of a
web page become tab-separated text. Called by `text_file` to judge a file and by `tables` to read it.
"""

from importers.decoding.encoding import (
    Encoding,
    as_utf8,
    detect_encoding,
    has_lone_returns,
    head_text,
    lines_of,
    one_line_end,
    without_padding,
)
from importers.decoding.markup import is_markup, tables_as_text

__all__ = ["Encoding", "as_utf8", "detect_encoding", "has_lone_returns", "head_text", "is_markup", "lines_of",
           "one_line_end", "tables_as_text", "without_padding"]  # fmt: skip
