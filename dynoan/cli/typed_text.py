"""Text as it was typed, whatever the locale makes of it.

Where a locale knows no UTF-8, Python hands each byte beyond ASCII on as half a pair of surrogates, which no file can
hold as text. A word that names a file stays as it is: so the system knows it.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import Any

import click

from dynoan.errors import CallError


def as_typed(asked: Mapping[str, Any], options: Mapping[str, click.Parameter]) -> dict[str, Any]:
    """Return what was asked with its texts as they were typed.

    Raises
    ------
    CallError
        If an option's text is no UTF-8; a word that is no option may be a file's name, and is judged as that.
    """
    found = {name: _each(value) for name, value in asked.items()}
    for name, value in found.items():
        texts = value if isinstance(value, tuple) else (value,)
        if isinstance(options.get(name), click.Option) and any(isinstance(t, str) and _broken(t) for t in texts):
            raise CallError("no text: it holds bytes that are no UTF-8", part=name, hint="type it anew")
    return found


def _each(value: Any) -> Any:
    if isinstance(value, tuple):
        return tuple(_each(one) for one in value)
    return _text(value) if isinstance(value, str) else value


def _text(word: str) -> str:
    if not _broken(word) or os.path.lexists(word):
        return word
    try:
        return os.fsencode(word).decode()
    except UnicodeError:
        return word


def _broken(text: str) -> bool:
    return any("\ud800" <= character <= "\udfff" for character in text)
