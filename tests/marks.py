"""How far the marks of a picture stand out from its paper (WCAG 2.2, contrast ratio and relative luminance), and what
of it is said twice or has no room.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import Any

from matplotlib.collections import Collection
from matplotlib.colors import to_rgba
from matplotlib.lines import Line2D
from matplotlib.text import Text

MARK, TEXT, LARGE_TEXT = 3.0, 4.5, 3.0  #: WCAG 2.2, 1.4.11 and 1.4.3
LARGE_PT, LARGE_BOLD_PT = 18.0, 14.0
NOTHING = ("None", "none", " ", "", None)


def luminance(rgb: tuple[float, ...]) -> float:
    """Return the relative luminance of an sRGB colour."""
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in rgb[:3])
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(colour: Any, paper: Any = "white", alpha: float | None = None) -> float:
    """Return the contrast of a colour, as much of it as covers the paper, against the paper."""
    rgba, ground = to_rgba(colour), to_rgba(paper)
    cover = rgba[3] if alpha is None else alpha
    seen = tuple(cover * c + (1 - cover) * g for c, g in zip(rgba[:3], ground[:3], strict=True))
    light, dark = sorted((luminance(seen), luminance(ground)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def faint(figure: Any) -> list[str]:
    """Return what of a figure stands out too little: lines, points, edges of areas, bars, text.

    Left out are the lines of the grid, whose places stand beside them in figures.
    """
    grid = {id(g) for ax in figure.axes for axis in (ax.xaxis, ax.yaxis) for g in axis.get_gridlines()}
    out = []
    for line in figure.findobj(Line2D):
        if line.get_visible() and id(line) not in grid and len(line.get_xdata()):
            out += [f"line {line.get_label()}: {c:.1f}" for c in [max(_line(line), default=99.0)] if c < MARK]
    for ax in figure.axes:
        for drawn in [*ax.collections, *ax.patches]:
            if drawn.get_visible():
                out += [f"area {drawn.get_label()}: {c:.1f}" for c in [max(_area(drawn), default=99.0)] if c < MARK]
    for text in figure.findobj(Text):
        bold = text.get_fontweight() in ("bold", 700) and text.get_fontsize() >= LARGE_BOLD_PT
        wanted = LARGE_TEXT if bold or text.get_fontsize() >= LARGE_PT else TEXT
        if text.get_visible() and text.get_text().strip():
            got = contrast(text.get_color(), alpha=text.get_alpha())
            out += [f"text {text.get_text()}: {got:.1f}"] if got < wanted else []
    return out


def _line(line: Line2D) -> Iterator[float]:
    if line.get_linestyle() not in NOTHING and line.get_linewidth() > 0:
        yield contrast(line.get_color(), alpha=line.get_alpha())
    if line.get_marker() not in NOTHING:
        filled = line.get_markeredgewidth() == 0
        yield contrast(line.get_markerfacecolor() if filled else line.get_markeredgecolor(), alpha=line.get_alpha())


def _area(area: Any) -> Iterator[float]:
    """Contrasts of what bounds or fills an area; either may carry it."""
    several = isinstance(area, Collection)
    widths = area.get_linewidths() if several else [area.get_linewidth()]
    edges = area.get_edgecolor() if several else [area.get_edgecolor()]
    faces = area.get_facecolor() if several else [area.get_facecolor()]
    if max(widths, default=0) > 0:
        yield from (contrast(tuple(c)) for c in edges if c[3] > 0)
    yield from (contrast(tuple(c)) for c in faces if c[3] > 0)


def crowded(figure: Any) -> list[str]:
    """Return what a laid-out figure says twice, what sticks out of it, and names that are longer than their axes.

    Names of axes that run into its heading, and titles that run into one another, too.
    """
    legends = [[t.get_text() for t in found.get_texts()] for ax in figure.axes if (found := ax.get_legend())]
    out = [f"twice: {one}" for i, one in enumerate(legends) if one in legends[:i]]
    shown = [ax for ax in figure.axes if ax.get_visible()]
    named = [label for ax in shown for label in (ax.xaxis.label, ax.yaxis.label) if label.get_text()]
    paper, heading = figure.bbox, figure._suptitle
    over = [] if heading is None else [heading.get_window_extent()]
    for ax in shown:
        ax.get_tightbbox()  # names of axes find their places beside the figures
    for ax in shown:
        room, height = ax.get_window_extent(), ax.yaxis.label.get_window_extent().height
        out += [f"longer than its axis: {ax.get_ylabel()}"] if ax.get_ylabel() and height > room.height else []
        width = ax.xaxis.label.get_window_extent().width
        out += [f"longer than its axis: {ax.get_xlabel()}"] if ax.get_xlabel() and width > room.width else []
    titles = [(text.get_text(), text.get_window_extent()) for ax in shown if (text := ax._left_title).get_text()]
    out += [f"runs into the next: {name}" for (name, one), (_, other) in combinations(titles, 2) if one.overlaps(other)]
    for label in named:
        box = label.get_window_extent()
        if box.x0 < -1 or box.y0 < -1 or box.x1 > paper.width + 1 or box.y1 > paper.height + 1:
            out.append(f"out of the picture: {label.get_text()}")
        out += [f"runs into the heading: {label.get_text()}" for one in over if box.overlaps(one)]
    return out
