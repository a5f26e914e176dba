"""Marks by which rigs and loggers set lines apart as comments."""

from __future__ import annotations

import re

from importers.patterns import regex

_COMMENT = regex(r"^\s*(?:#+|%+|//+|!+|\*+(?=\s)|;+(?=\s*[^;]*$)|'(?=\s)|--+(?=\s)|rem\b)\s*", re.IGNORECASE)


def uncomment(line: str) -> str:
    """Return a line without a leading comment mark."""
    return _COMMENT.sub("", line)
