"""Asking a person, one value after the other, what a file needs."""

from __future__ import annotations

import math
import re
import sys
from dataclasses import replace
from typing import TYPE_CHECKING

import click

from dynoan.errors import CallError, DynoanError, QuantityError
from dynoan.jobs.new import USUAL, NewQuestion, as_here, known_adjusters
from dynoan.library.car_keys import QUANTITIES
from dynoan.library.tables import TomlTable
from dynoan.library.templates import CAR, SHOCK, Blank
from dynoan.model.car_check import OF_KEY
from dynoan.model.shock import ADJUSTERS, parse_clicks
from dynoan.show.text.restated import restated
from dynoan.show.text.widths import terminal_width, wrapped
from dynoan.units import HINTED, Shown, parse

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

SOFT = "from soft"
#: of all adjusters at once; where they differ the file says so
COUNTED = Blank("counted", "from closed, where 0 is full stiff, or from soft, where 0 is full soft", "from closed")
_CHOICES = {"driven": ("front", "rear", "all"), "counted": ("from closed", SOFT)}
ANSWER = 14  #: columns left for what is typed
#: what stands before what a value is uncertain by
_UNSURE = re.compile(r"±|\+/?-")
_KINDS = {**QUANTITIES, "wheelbase": "length", "cg_height": "length", "antisquat": "ratio", "rod": "length",
          "piston": "length", "stroke": "length", "gas_pressure": "pressure"}  # fmt: skip


def ask_for(bench: Workbench, question: NewQuestion) -> NewQuestion:
    """Return the question with what a person typed; an empty answer leaves a value out.

    Raises
    ------
    CallError
        If the program was started without a standard input.
    """
    if sys.stdin is None:
        raise CallError(
            "nothing can be typed here", where="--ask", hint="leave it out: what is empty is filled in later"
        )
    units = bench.library.units
    click.echo("Enter leaves a value out; it can be filled in later.", err=True)
    blanks = as_here(bench, CAR) if question.kind == "car" else SHOCK
    values = {b.key: given for b in blanks if b.asked and (given := _ask(b, units))}
    if question.kind == "car":
        return replace(question, values=values)
    tested = known_adjusters(bench, question.name)
    usual = question.adjusters or tuple(a for a in ADJUSTERS if a in tested) or USUAL
    question = _with_adjusters(NewQuestion.asked("shock", question.name, values, ",".join(usual)))
    for adjuster in question.adjusters:
        last = Blank(
            f"{adjuster}.clicks",
            f"last position of {ADJUSTERS[adjuster]}: the clicks from end to end",
            "20",
            number=True,
        )
        values |= {last.key: given} if (given := _ask(last, units)) else {}
    if _ask(COUNTED, units) == SOFT:
        values |= {f"{adjuster}.counted": SOFT for adjuster in question.adjusters}
    return replace(question, values=values)


def _with_adjusters(question: NewQuestion) -> NewQuestion:
    """Return the question with the adjusters that a person named, asked again until they are some."""
    usual = ",".join(question.adjusters)
    while True:
        asked = f"adjusters: which of {', '.join(ADJUSTERS)} it has (Enter: {usual})"
        named = click.prompt(_in_lines(asked), default=usual, show_default=False, err=True)
        try:
            return NewQuestion.asked("shock", question.name, question.values, named.replace(";", ","))
        except DynoanError as error:
            _tell(error)


def _tell(error: DynoanError) -> None:
    for line in wrapped(f"  {restated(str(error), HINTED.get())}", max(terminal_width(), 2 * ANSWER)):
        click.echo(line, err=True)


def _ask(blank: Blank, units: Shown) -> str:
    """Return what was typed, asked again until it can be."""
    while True:
        given: str = click.prompt(_prompt(blank, units), default="", show_default=False, err=True).strip()
        try:
            return given if not given else _sound(blank, given, units)
        except DynoanError as error:
            _tell(error)


def _prompt(blank: Blank, units: Shown) -> str:
    """Return what is asked, whole words to a line, with room to answer."""
    return _in_lines(f"{blank.key}: {blank.words} (such as {blank.example(units)})")


def _in_lines(wanted: str) -> str:
    return "\n".join(wrapped(wanted, max(terminal_width() - ANSWER, 2 * ANSWER), 2))


def _sound(blank: Blank, given: str, units: Shown) -> str:
    """Return what was typed, a number as the file takes it.

    Raises
    ------
    QuantityError, CallError
        If it cannot stand there.
    """
    last = blank.key.rpartition(".")[2]
    if last == "clicks" and not blank.number:
        parse_clicks(given)
    if last in _CHOICES:
        return _one_of(_CHOICES[last], given)
    kind = _KINDS.get(last)
    unsure = _UNSURE.search(given) is not None
    if kind is not None and unsure:
        TomlTable({last: given}, "", (last,)).quantity(last, kind)
    elif kind is not None:
        _parsed(given, kind, blank.example(units))
    if blank.number:
        given = " ± ".join(_number(part, blank) for part in (_UNSURE.split(given) if unsure else (given,)))
    _possible(last, given, kind)
    return given


def _possible(key: str, given: str, kind: str | None) -> None:
    """Refuse what no car can have there, while the one who typed it still knows what he measured."""
    limit = OF_KEY.get(key)
    if limit is not None:
        told = TomlTable({key: given}, "", (key,))
        value = float(_UNSURE.split(given)[0]) if kind is None else told.quantity(key, kind)
        for fault in () if value is None else limit.fault(key, value):
            raise QuantityError(fault.text)


def _one_of(choices: tuple[str, ...], given: str) -> str:
    """Return which of some words was typed."""
    chosen = next((c for c in choices if given.casefold() in (c, c.removeprefix("from "))), None)
    if chosen is None:
        raise QuantityError(f"'{given[:40]}' is none of {', '.join(choices)}")
    return chosen


def _parsed(given: str, kind: str, example: str) -> None:
    """Refuse what is no such quantity, with an example of the very key."""
    try:
        parse(given, kind)
    except QuantityError as error:
        if not error.hint.startswith("write it like"):
            raise
        raise QuantityError(error.what, hint=f"write it like '{example}'") from None


def _number(given: str, blank: Blank) -> str:
    """Return a number as TOML takes it: with a digit on either side of a point."""
    try:
        value = float(given.strip().replace(",", "."))
    except ValueError:
        raise QuantityError(f"'{given[:40]}' is no number", hint=f"write it like {blank.metric}") from None
    if not math.isfinite(value):
        raise QuantityError(f"'{given[:40]}' is no number", hint=f"write it like {blank.metric}")
    return f"{value:.12g}"
