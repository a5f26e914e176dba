"""From an answer to what a person looks at, whatever the job: text blocks, a picture, an HTML fragment.

A job named ``ratio`` is shown by ``show/text/ratio.py`` (``blocks(answer, look)``) and drawn by ``show/plots/ratio.py``
(``figure(answer, units)``).
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from dynoan.show.text.blocks import Block, Look

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.answering import Answer
    from dynoan.units import Shown


def blocks(answer: Answer, look: Look) -> list[Block]:
    """Return an answer as paragraphs and tables."""
    found: list[Block] = import_module(f"dynoan.show.text.{answer.job}").blocks(answer, look)
    return found


def figure(answer: Answer, units: Shown = "metric") -> Figure:
    """Return an answer's picture."""
    drawn: Figure = import_module(f"dynoan.show.plots.{answer.job}").figure(answer, units)
    return drawn


def html(answer: Answer, units: Shown = "metric") -> str:
    """Return an answer's text as an HTML fragment, everything escaped."""
    from dynoan.show.pages.fragment import fragment

    return fragment(blocks(answer, Look(units)))
