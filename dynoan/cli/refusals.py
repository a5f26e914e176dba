"""An error as the command line tells it: one line for people, and the parts of it for the JSON object."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass

import click

from dynoan.cli.hints import help_for, option_of, spoken
from dynoan.cli.placing import place_in
from dynoan.errors import (
    CallError,
    DynoanError,
    FitError,
    Lacking,
    LibraryError,
    LookupFault,
    QuantityError,
    ReadError,
    typed,
)
from dynoan.show.text.restated import restated
from dynoan.units import HINTED

#: what an error is about, by its class
KINDS: Mapping[type[BaseException], str] = {
    ReadError: "read", Lacking: "quantity", QuantityError: "quantity", LookupFault: "lookup", LibraryError: "library",
    FitError: "fit", CallError: "call", click.ClickException: "call", DynoanError: "call", MemoryError: "memory",
    OSError: "file",
}  # fmt: skip
#: a file that people edit, and that ``dynoan new`` checks
_EDITED = re.compile(r"(car|shock)s/([^/%\s:]+)\.toml")
_LONG_WORD = re.compile(r"(\S{150})\S{100,}(\S{50})")  # longer than a path that people have
LONGEST = 2000  #: of a line that an error is told in [characters]


@dataclass(frozen=True)
class Refusal:
    """Why a call or its input is wrong."""

    kind: str
    text: str  #: the whole line that people see
    where: str | None = None  #: the file, the option or the word it is about, else the command
    hint: str | None = None  #: what to do

    def to_dict(self) -> dict[str, str | None]:
        """Return it as the JSON object has it under "error"."""
        return asdict(self)


def refusal(error: BaseException, words: Sequence[str] = (), command: str = "") -> Refusal:
    """Return what the command line tells of an error, in one line of bounded length.

    Parameters
    ----------
    error
        What went wrong.
    words, command
        What was typed, and the command in it: where an error names no place, its place is there.
    """
    check = "" if command == "new" else _check(error)  # which is that very check
    text = f"{_words(error)}; {check}" if check else _words(error)
    kind = next((kind for class_, kind in KINDS.items() if isinstance(error, class_)), "fault")
    where = _where(error) or (place_in(error, words, command) if words or command else None)
    return Refusal(kind, _line(text) or "", _line(where), _line(check or _hint(error)))


def _line(text: str | None) -> str | None:
    return one_line(restated(text, HINTED.get())) if text else None


def _check(error: BaseException) -> str:
    """Return how all that is wrong with a car or shock file is seen at once, empty where nothing is wrong with one."""
    if not isinstance(error, QuantityError) or isinstance(error, Lacking) or error.part:
        return ""
    found = _EDITED.fullmatch(error.said.place.file)
    return f"all that is wrong with it: dynoan new {found[1]} {typed(found[2])}" if found else ""


def one_line(text: str) -> str:
    """Return a text in one line, the middle of it and of each of its words left out where they are over long."""
    line = " ".join(_LONG_WORD.sub(r"\1…\2", text).split())
    return line if len(line) <= LONGEST else f"{line[: LONGEST // 2]} … {line[-LONGEST // 2 :]}"


def _words(error: BaseException) -> str:
    if isinstance(error, click.ClickException):
        return error.format_message() + _of_clicks(error) + (f" ({hint})" if (hint := _help(error)) else "")
    if isinstance(error, DynoanError):
        return spoken(error)
    if isinstance(error, MemoryError):
        return "not enough memory for this"
    if isinstance(error, FileNotFoundError) and error.filename:
        from dynoan.library.disk_faults import way_to

        return f"{error.filename}: no such file; {way_to(error.filename)}"
    if isinstance(error, OSError):
        return f"{error.filename}: {error.strerror}" if error.filename else str(error)
    return f"a fault of the program ({type(error).__name__}: {one_line(str(error))}); --debug shows where"


def _of_clicks(error: click.ClickException) -> str:
    """Return how clicks are given, where a word too many holds some; else nothing."""
    context = error.ctx if isinstance(error, click.UsageError) else None
    takes = context is not None and any("--clicks" in param.opts for param in context.command.params)
    found = re.search(r"unexpected extra arguments? \((\w+=[\w=,; ]+)\)", error.format_message()) if takes else None
    return f"; clicks go with --clicks {found[1].replace(' ', ',')}" if found else ""


def _help(error: click.ClickException) -> str:
    if isinstance(error, click.UsageError) and error.ctx is not None:
        return f"see: {error.ctx.command_path} --help"
    return ""


def _where(error: BaseException) -> str | None:
    if isinstance(error, click.BadParameter) and error.param is not None:
        return error.param.opts[0] if error.param.param_type_name == "option" else error.param.make_metavar(error.ctx)  # type: ignore[arg-type]
    if isinstance(error, DynoanError):
        return option_of(error.part) if error.part else error.where
    return str(error.filename) if isinstance(error, OSError) and error.filename else None


def _hint(error: BaseException) -> str | None:
    if isinstance(error, click.ClickException):
        return _help(error) or None
    return help_for(error) or error.hint if isinstance(error, DynoanError) else None
