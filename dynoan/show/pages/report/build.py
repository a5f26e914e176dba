"""The report: one HTML file to read, print and send, without a script."""

from __future__ import annotations

from dynoan.cautions import CAUTIONS
from dynoan.errors import CallError
from dynoan.show.pages.page import asset, policy, render
from dynoan.show.pages.report.blocks import Section
from dynoan.show.pages.report.car import car_section
from dynoan.show.pages.report.packs import (
    glance,
    overlay_section,
    pack_section,
    pairs_section,
    shock_section,
    sweeps_section,
)
from dynoan.show.pages.report.view import ReportView
from dynoan.show.pages.report.words import HOW

LIMIT = 5_000_000


def build_report(view: ReportView) -> str:
    """Return the report's page; the same view gives the same bytes.

    Raises
    ------
    CallError
        If it would be larger than a mail takes.
    """
    style = asset("common.css") + asset("report.css")
    page = render("report.html", policy=policy(style), style=style, view=view, sections=sections(view), how=HOW,
                  cautions=CAUTIONS)  # fmt: skip
    if len(page.encode()) > LIMIT:
        raise CallError(f"{view.title}: the report would be over 5 MB; name one shock, pack or car")
    return page


def sections(view: ReportView) -> tuple[Section, ...]:
    """Return what the report shows, in order."""
    out = [glance(view)]
    out += [car_section(car, view.units) for car in view.cars]
    if len(view.packs) > 1:
        out.append(overlay_section(view.packs, view.units))
    out += [pack_section(pack, view.units) for pack in view.packs]
    out += [shock_section(shock, view.units) for shock in view.shocks]
    if view.pairs:
        out.append(pairs_section(view.pairs, view.units))
    if view.sweeps:
        out.append(sweeps_section(view.sweeps))
    return tuple(out)
