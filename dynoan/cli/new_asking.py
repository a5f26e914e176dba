"""Asking a person, one value after the other, what a file needs."""

from __future__ import annotations

import re
import sys
from dataclasses import replace
from typing import TYPE_CHECKING

import click

from dynoan.errors import CallError, QuantityError
from dynoan.jobs.new import USUAL, NewQuestion, known_adjusters
from dynoan.library.car_file import QUANTITIES
from dynoan.library.tables import TomlTable
from dynoan.library.templates import CAR, SHOCK, Blank
from dynoan.model.shock import ADJUSTERS
from dynoan.units import Shown, parse

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

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
    blanks = CAR if question.kind == "car" else SHOCK
    values = {b.key: given for b in blanks if b.asked and (given := _ask(b, units))}
    if question.kind == "car":
        return replace(question, values=values)
    tested = known_adjusters(bench, question.name)
    usual = question.adjusters or tuple(a for a in ADJUSTERS if a in tested) or USUAL
    named = click.prompt("adjusters", default=",".join(usual), err=True)
    question = NewQuestion.asked("shock", question.name, values, named)
    for adjuster in question.adjusters:
        last = Blank(
            f"{adjuster}.clicks", f"last position of {ADJUSTERS[adjuster]}, from fully closed", "20", number=True
        )
        values |= {last.key: given} if (given := _ask(last, units)) else {}
    return replace(question, values=values)


def _ask(blank: Blank, units: Shown) -> str:
    """Return what was typed, asked again until it can be."""
    while True:
        wanted = f"{blank.key}: {blank.words} [{blank.example(units)}]"
        given: str = click.prompt(wanted, default="", show_default=False, err=True).strip()
        try:
            return given if not given else _sound(blank, given)
        except QuantityError as error:
            click.echo(f"  {error}", err=True)


def _sound(blank: Blank, given: str) -> str:
    last = blank.key.rpartition(".")[2]
    kind = _KINDS.get(last)
    unsure = _UNSURE.search(given) is not None
    if kind is not None and unsure:
        TomlTable({last: given}, "", (last,)).quantity(last, kind)
    elif kind is not None:
        parse(given, kind)
    if blank.number:
        try:
            _ = [float(part) for part in (_UNSURE.split(given) if unsure else (given,))]
        except ValueError:
            raise QuantityError(f"'{given[:40]}' is no number", hint=f"write it like {blank.metric}") from None
    return given
