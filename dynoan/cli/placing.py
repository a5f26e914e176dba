"""Where in a command that was typed an error has its place, where the error itself names neither file nor option."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

import click

from dynoan.cli.hints import help_for
from dynoan.errors import DynoanError

_OPTION = re.compile(r"(?<![\w-])--[a-z][a-z-]*")
#: options of every command that take no value: the word after them is not theirs
_ALONE = ("--json", "--debug")
_MORE = re.compile(r"unexpected extra arguments? \((.*)\)", re.DOTALL)


def place_in(error: BaseException, words: Sequence[str], command: str) -> str:
    """Return the option or the word that an error is about, else the whole command.

    Parameters
    ----------
    error
        What went wrong.
    words
        What was typed, without the program's name.
    command
        The command's name, such as "setup record"; empty where it came to none.
    """
    if isinstance(error, click.NoSuchOption):
        return error.option_name
    text = error.format_message() if isinstance(error, click.ClickException) else str(error)
    found = [*_more(text), *_needed(error), *_quoted(text, words), *_OPTION.findall(text)]
    return next(filter(str.strip, found), f"dynoan {command}".strip())


def _more(text: str) -> Iterator[str]:
    """Yield the words that were too many."""
    if found := _MORE.search(text):
        yield found[1]


def _needed(error: BaseException) -> list[str]:
    """Return the options that would help."""
    return _OPTION.findall(help_for(error)) if isinstance(error, DynoanError) else []


def _quoted(text: str, words: Sequence[str]) -> Iterator[str]:
    """Yield what was typed and is repeated between quotes: the option that it was given to, or itself."""
    for before, word in zip(("", *words), words, strict=False):
        option, _, value = word.partition("=") if word.startswith("--") else ("", "", word)
        if value and f"'{value}'" in text:
            yield option or (before if before.startswith("--") and before not in _ALONE else value)
