"""The guide as one page to read, print and send: every topic, its pictures inside."""

from __future__ import annotations

from dynoan.jobs.guide import GuideAnswer
from dynoan.show.pages.markdown import to_html
from dynoan.show.pages.page import asset, policy, render
from dynoan.units import Shown


def page(answer: GuideAnswer, units: Shown = "metric") -> str:
    """Return the page of the topics asked for."""
    style = asset("common.css") + asset("report.css") + asset("guide.css")
    pages = [(t.name, t.title, to_html(t.text, lower=1)) for t in answer.topics]
    title = "Guide" if len(pages) != 1 else pages[0][1]
    return render("guide.html", policy=policy(style, images=True), style=style, title=title, pages=pages)
