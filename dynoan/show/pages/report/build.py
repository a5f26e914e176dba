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
from dynoan.show.pages.report.view import ReportView, view_of
from dynoan.show.pages.report.words import HOW
from dynoan.units import Shown

LIMIT = 5_000_000


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
    shown = sections(view)
    first = [shown[0].title, *(["Warnings"] if view.warnings else [])]
    parts = [*first, *(s.title for s in shown[1:]), "How each number was got"]
    style = asset("common.css") + asset("report.css") + running_heads(parts, len(first), view.title)
    text = render("report.html", policy=policy(style), style=style, view=view, sections=shown, parts=parts, how=HOW,
                  cautions=CAUTIONS)  # fmt: skip
    if len(text.encode()) > LIMIT:
        raise CallError("the report would be over 5 MB", where=view.title, hint="name one shock, pack or car")
    return text


def running_heads(parts: Sequence[str], before: int, title: str) -> str:
    """Return the rules that begin each part but those `before` on a new page, its number and name at the head of all.

    A browser cannot print the page of a heading into a list of contents. It can number the parts in both places, and
    say on every page in which part one is.
    """
    out = []
    for number, part in enumerate(parts[before:], start=before + 1):
        head = f'@top-left {{ content: "{number}\\2003 {_css(part)}"; }} @top-right {{ content: "{_css(title)}"; }}'
        out.append(f"@page part{number} {{ {head} }} @media print {{ .part{number} {{ page: part{number}; }} }}")
    return "\n".join(out)


def _css(text: str) -> str:
    """Return text for a string in a style: whatever could end it is written by its number."""
    return "".join(c if c.isalnum() or c in " ,.-" else f"\\{ord(c):x} " for c in text)


def sections(view: ReportView) -> tuple[Section, ...]:
    """Return what the report shows, in order."""
    return tuple(in_units(section, view.units) for section in _sections(view))


def _sections(view: ReportView) -> tuple[Section, ...]:
    out = [glance(view)]
    if view.health:
        out.append(health_section(view.health, view.units))
    out += [car_section(car, view.units) for car in view.cars]
    if view.setups:
        out.append(setups_section(view.setups))
    if len(view.packs) > 1:
        out.append(overlay_section(view.packs, view.units))
    out += [pack_section(pack, view.units) for pack in view.packs]
    out += [shock_section(shock, view.units) for shock in view.shocks]
    if view.pairs:
        out.append(pairs_section(view.pairs, view.units))
    if view.runs:
        out.append(runs_section(view.runs, view.units))
    return tuple(out)
