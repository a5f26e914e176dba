"""From an answer to what a person looks at, whatever the job: text blocks, a picture, an HTML fragment.

A job named ``ratio`` is shown by ``show/text/ratio.py`` (``blocks(answer, look)``) and drawn by ``show/plots/ratio.py``
(``figure(answer, units)``); "setup list" by ``setup_list.py``. One that is also a file, such as ``report``, is made by
``show/pages/report`` (``page(answer, units)``; where a file's ending decides its form, ``page(answer, units, form)``).
One that gives advice has ``sentences(answer, units)`` beside its blocks.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING

from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.show.text.restated import restated

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.answering import Answer, PageAnswer
    from dynoan.units import Shown


def blocks(answer: Answer, look: Look) -> list[Block]:
    """Return an answer as paragraphs and tables, all in the units people are shown."""
    found: list[Block] = import_module(f"dynoan.show.text.{_module(answer)}").blocks(answer, look)
    return [_restated(block, look.units) for block in found]


def _restated(block: Block, units: Shown) -> Block:
    as_it_is = isinstance(block, Paragraph) and (block.drawn or block.typed or block.own)
    if units == "metric" or isinstance(block, Table) or as_it_is:
        return block
    return replace(block, text=restated(block.text, units))


def figure(answer: Answer, units: Shown = "metric") -> Figure:
    """Return an answer's picture.

    Raises
    ------
    NotImplementedError
        If its job has none.
    """
    if find_spec(f"dynoan.show.plots.{_module(answer)}") is None:
        raise NotImplementedError(f"{answer.job} has no picture")
    drawn: Figure = import_module(f"dynoan.show.plots.{_module(answer)}").figure(answer, units)
    return drawn


def sentences(answer: Answer, units: Shown = "metric") -> list[str]:
    """Return what an answer advises, in words."""
    found: list[str] = import_module(f"dynoan.show.text.{_module(answer)}").sentences(answer, units)
    return [restated(text, units) for text in found]


def _module(answer: Answer) -> str:
    return answer.job.replace(" ", "_")


def csv(answer: Answer) -> str:
    """Return an answer's main table as CSV in SI, the unit in each column's name."""
    from dynoan.show.text.tables import csv_text

    rows = answer.rows()
    columns = answer.columns or tuple(dict.fromkeys(key for row in rows for key in row))
    return csv_text(columns, [[_cell(row.get(c)) for c in columns] for row in rows])


def _cell(value: object) -> object:
    """Return a value as one cell holds it: clicks as people type them, a list with blanks between."""
    if isinstance(value, Mapping):
        return ",".join(f"{key}={one}" for key, one in value.items())
    return " ".join(map(str, value)) if isinstance(value, list | tuple) else value


def html(answer: Answer, units: Shown = "metric") -> str:
    """Return an answer's text as an HTML fragment, everything escaped."""
    from dynoan.show.pages.fragment import fragment

    return fragment(blocks(answer, Look(units)))


def page(answer: PageAnswer, units: Shown = "metric", form: str = ".html") -> str:
    """Return the file an answer is printed, sent or carried as."""
    module = import_module(f"dynoan.show.pages.{_module(answer)}")
    made: str = module.page(answer, units, *([form] if answer.forms else []))
    return made


def save(answer: PageAnswer, units: Shown, path: Path, *, force: bool = False) -> Path:
    """Write that file whole or not at all, in the form its name's ending says; return where it is.

    A file that is there is replaced where it is an earlier output of the same kind, any other only by `force`.
    """
    from dynoan.output import write

    return write(path, page(answer, units, path.suffix.lower()).encode(), force=force)
