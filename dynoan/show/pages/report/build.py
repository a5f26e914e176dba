"""The report: one HTML file to read, print and send, without a script."""

from __future__ import annotations

from collections.abc import Sequence

from dynoan.cautions import CAUTIONS
from dynoan.errors import CallError
from dynoan.jobs.report import ReportAnswer
from dynoan.show.clock import now_text
from dynoan.show.pages.page import asset, policy, render
from dynoan.show.pages.report.blocks import Section, in_units
from dynoan.show.pages.report.car import car_section
from dynoan.show.pages.report.history import health_section, setups_section
from dynoan.show.pages.report.packs import (
    glance,
    overlay_section,
    pack_section,
    pairs_section,
    runs_section,
    shock_section,
)
from dynoan.show.pages.report.sheets import heads, placed
from dynoan.show.pages.report.travel import travel_section
from dynoan.show.pages.report.view import ReportView, view_of
from dynoan.show.pages.report.words import HOW
from dynoan.units import Shown

LIMIT = 5_000_000
#: the part that ends each report: cautions, and under them how each number was got
LAST = "Before you turn anything"


def page(answer: ReportAnswer, units: Shown = "metric", made: str | None = None) -> str:
    """Return the page of an answer, made now unless another moment is given in words.

    Raises
    ------
    CallError
        If it would be larger than a mail takes.
    """
    return build_report(view_of(answer, units, made or now_text()))


def build_report(view: ReportView) -> str:
    """Return the report's page; the same view gives the same bytes.

    Raises
    ------
    CallError
        If it would be larger than a mail takes.
    """
    parts, last = placed(sections(view), LAST)
    style = asset("common.css") + asset("report.css") + running_heads(heads((*parts, last)), view.title)
    text = render("report.html", policy=policy(style), style=style, view=view, parts=parts, last=last, how=HOW,
                  cautions=CAUTIONS)  # fmt: skip
    if len(text.encode()) > LIMIT:
        raise CallError("the report would be over 5 MB", where=view.title, hint="name one shock, pack or car")
    return text


def running_heads(parts: Sequence[str], title: str) -> str:
    """Return the rules that begin each part on a new page and number its pages anew: "3-2" is the second of part 3.

    A browser cannot print the page of a heading into a list of contents. Where each part begins a page, its first is
    "3-1" whatever lies before it, so that the contents are right by themselves. The head says which part it is.
    """
    out = ["@page :first { @top-left { content: none; } @top-right { content: none; } }"]
    for number, part in enumerate(parts, start=1):
        name = "" if number == 1 else f"part{number}"
        boxes = (
            f'@top-left {{ content: "{number}\\2003 {_css(part)}"; }} @top-right {{ content: "{_css(title)}"; }}'
            f' @bottom-right {{ content: "{number}-" counter(in{number}); }}'
        )
        out.append(f"@page {name} {{ counter-increment: in{number}; {boxes} }}")
        if name:
            out.append(f"@media print {{ .{name} {{ page: {name}; }} }}")
    return "\n".join(out)


def _css(text: str) -> str:
    """Return text for a string in a style: whatever could end it is written by its number."""
    return "".join(c if c.isalnum() or c in " ,.-" else f"\\{ord(c):x} " for c in text)


def sections(view: ReportView) -> tuple[Section, ...]:
    """Return what the report shows, in order."""
    return tuple(in_units(section, view.units) for section in _sections(view))


def _sections(view: ReportView) -> tuple[Section, ...]:
    parts, units = view.parts, view.units
    out = [glance(view)]
    if parts.health:
        out.append(health_section(parts.health, units))
    out += [car_section(car, units) for car in parts.cars]
    out += [travel_section(log, number, units) for number, log in enumerate(parts.travel, start=1)]
    if parts.setups:
        out.append(setups_section(parts.setups))
    if len(parts.packs) > 1:
        out.append(overlay_section(parts.packs, units))
    out += [pack_section(pack, units) for pack in parts.packs]
    out += [shock_section(shock, units) for shock in parts.shocks]
    if parts.pairs:
        out.append(pairs_section(parts.pairs, units))
    if parts.runs:
        out.append(runs_section(parts.runs, units))
    return tuple(out)
