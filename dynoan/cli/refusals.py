"""An error as the command line tells it: one line for people, and the parts of it for the JSON object."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass

import click

from dynoan.cli.hints import help_for, option_of, spoken
from dynoan.errors import CallError, DynoanError, FitError, LibraryError, LookupFault, QuantityError, ReadError
from dynoan.show.text.restated import restated
from dynoan.units import HINTED

#: what an error is about, by its class
KINDS: Mapping[type[BaseException], str] = {
    ReadError: "read", QuantityError: "quantity", LookupFault: "lookup", LibraryError: "library", FitError: "fit",
    CallError: "call", click.ClickException: "call", DynoanError: "call", MemoryError: "memory", OSError: "file",
}  # fmt: skip
_FILE = re.compile(r"(\S[^:;]*\.[A-Za-z0-9]{1,5}(?:, line \d+)?): ")
_EDITED = re.compile(r"(car|shock)s/([^/%\s:]+)\.toml(?:: |, line )")
_LONG_WORD = re.compile(r"(\S{150})\S{100,}(\S{50})")  # longer than a path that people have
#: how it is told of a file that is sound and lacks what one command wants
_WANTED = re.compile(r"\bneeds (?:it|one|both)\b")
LONGEST = 2000  #: of a line that an error is told in [characters]


@dataclass(frozen=True)
class Refusal:
    """Why a call or its input is wrong."""

    kind: str
    text: str  #: the whole line that people see
    where: str | None = None  #: the option, or the file, it is about
    hint: str | None = None  #: what to do

    def to_dict(self) -> dict[str, str | None]:
        """Return it as the JSON object has it under "error"."""
        return asdict(self)


def refusal(error: BaseException) -> Refusal:
    """Return what the command line tells of an error, in one line of bounded length."""
    text = one_line(_with_check(restated(_words(error), HINTED.get())))
    kind = next((kind for class_, kind in KINDS.items() if isinstance(error, class_)), "fault")
    return Refusal(kind, text, _where(error, text), _hint(error, text))


def _with_check(text: str) -> str:
    """Return an error about a car or shock file with how all that is wrong with it is seen at once."""
    found = None if _WANTED.search(text) else _EDITED.match(text)
    return f"{text}; all that is wrong with it: dynoan new {found[1]} {found[2]}" if found else text


def one_line(text: str) -> str:
    """Return a text in one line, the middle of it and of each of its words left out where they are over long."""
    line = " ".join(_LONG_WORD.sub(r"\1…\2", text).split())
    return line if len(line) <= LONGEST else f"{line[: LONGEST // 2]} … {line[-LONGEST // 2 :]}"


def _words(error: BaseException) -> str:
    if isinstance(error, click.ClickException):
        return error.format_message() + (f" ({hint})" if (hint := _help(error)) else "")
    if isinstance(error, DynoanError):
        return spoken(error)
    if isinstance(error, MemoryError):
        return "not enough memory for this"
    if isinstance(error, OSError):
        return f"{error.filename}: {error.strerror}" if error.filename else str(error)
    return f"a fault of the program ({type(error).__name__}: {one_line(str(error))}); --debug shows where"


def _help(error: click.ClickException) -> str:
    if isinstance(error, click.UsageError) and error.ctx is not None:
        return f"see: {error.ctx.command_path} --help"
    return ""


def _where(error: BaseException, text: str) -> str | None:
    if isinstance(error, click.BadParameter) and error.param is not None:
        return error.param.opts[0] if error.param.param_type_name == "option" else error.param.make_metavar(error.ctx)  # type: ignore[arg-type]
    if isinstance(error, DynoanError) and error.part:
        return option_of(error.part)
    if isinstance(error, OSError) and not isinstance(error, DynoanError) and error.filename:
        return str(error.filename)
    found = _FILE.match(text)
    return found[1] if found else None


def _hint(error: BaseException, text: str) -> str | None:
    if isinstance(error, click.ClickException):
        return _help(error) or None
    if isinstance(error, DynoanError) and (words := help_for(error)):
        return words
    return text.rpartition("; ")[2] if "; " in text else None
