"""The option that lays cases beside one another, which several commands share."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from dynoan.cli.call import Call

if TYPE_CHECKING:
    from dynoan.jobs.what_if import Asked

what_option = click.option(
    "--what",
    multiple=True,
    metavar="CHANGE",
    help="What if: a key of the car's file with a value, such as 'front.spring=275 lb/in' (several of one case joined "
    "by ';'), or another car or setup by name. May be repeated: the cases stand side by side.",
)


def show_cases(call: Call, asked: Asked, what: Sequence[str], plot: Path | None = None) -> int:
    """Show what a job answers for the car as it is and for each case; return the exit code."""
    from dynoan.jobs import what_if

    return call.show(what_if.answer(call.workbench(), what_if.WhatIfQuestion.of(asked, what)), plot)
