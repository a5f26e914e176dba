"""A picture written as a file, put into a page, or shown: whole or not at all, same bytes each time."""

from __future__ import annotations

import io
import tempfile
from pathlib import Path
from typing import Any

from matplotlib.category import StrCategoryFormatter
from matplotlib.figure import Figure
from matplotlib.text import Text
from matplotlib.ticker import FixedFormatter

from dynoan.errors import CallError
from dynoan.output import write
from dynoan.show.plots.style import in_style

_SUFFIXES = (".png", ".svg", ".pdf")
#: without a date and a random salt the same figure gives the same bytes
_METADATA: dict[str, dict[str, Any]] = {
    ".png": {"Software": "dynoan"},
    ".svg": {"Date": None, "Creator": "dynoan"},
    ".pdf": {"CreationDate": None, "ModDate": None, "Creator": "dynoan", "Producer": None},
}


def save(figure: Figure, path: Path | str, *, force: bool = False) -> Path:
    """Write a figure as PNG, SVG or PDF by its suffix, whole or not at all, and return the path.

    A file that is there is replaced where it is an earlier picture of this program, any other only by `force`.

    Raises
    ------
    CallError
        If the suffix is none of these, the folder does not exist, or a file is in the way; see `dynoan.output`.
    LibraryError
        If the disk refuses it.
    """
    target = Path(path)
    suffix = target.suffix.lower()
    if suffix not in _SUFFIXES:
        raise CallError(
            "a picture is written as .png, .svg or .pdf", where=target, hint="end the name with one of these"
        )
    body = io.BytesIO()
    _as_written(figure)
    with in_style({"svg.fonttype": "path"}):
        _lay_out(figure)
        figure.savefig(body, format=suffix[1:], metadata=_METADATA[suffix])
    return write(target, body.getvalue(), force=force)


def svg_text(figure: Figure, label: str = "") -> str:
    """Return a figure as an SVG element to put into a page; `label` tells a screen reader what it shows.

    See `dynoan.show.plots.inline` for what is changed so that several can stand on one page.
    """
    from dynoan.show.plots.inline import inline_svg

    body = io.StringIO()
    _as_written(figure)
    with in_style({"svg.fonttype": "none"}):
        _lay_out(figure)
        figure.savefig(body, format="svg", metadata=_METADATA[".svg"])
    return inline_svg(body.getvalue(), label)


def _lay_out(figure: Figure) -> None:
    """Lay a figure out once and for all; left to `savefig`, it would be drawn twice for that."""
    engine = figure.get_layout_engine()
    if engine is not None:
        engine.execute(figure)
        figure.set_layout_engine(None)


def _as_written(figure: Figure) -> None:
    """Names come from files: a dollar sign in one is no formula, and a control character must not spoil the SVG."""
    texts = figure.findobj(Text)
    formulas = {id(label) for ax in figure.axes for axis in _axes_of(ax) for label in _computed_labels(axis)}
    for text in texts:
        if id(text) not in formulas:
            text.set_parse_math(False)
            text.set_text("".join(c if c.isprintable() or c == "\n" else " " for c in text.get_text()))


def _axes_of(ax: Any) -> list[Any]:
    return [axis for axis in (getattr(ax, name, None) for name in ("xaxis", "yaxis")) if axis is not None]


def _computed_labels(axis: Any) -> list[Any]:
    """Return the tick labels that a formatter writes, which may be formulas such as powers of ten."""
    if isinstance(axis.get_major_formatter(), FixedFormatter | StrCategoryFormatter):
        return []
    ticks = (*axis.majorTicks, *axis.minorTicks)
    return [*(label for tick in ticks for label in (tick.label1, tick.label2)), axis.get_offset_text()]


def show(figure: Figure) -> Path:
    """Open a figure in the platform's picture viewer, for --show, and return the file it was written to.

    Raises
    ------
    CallError
        If there is no display or no viewer.
    """
    from dynoan.show.plots.viewer import open_file

    folder = Path(tempfile.mkdtemp(prefix="dynoan-"))
    path = save(figure, folder / "plot.png")
    open_file(path)
    return path
