"""Help from the guide: the topics of a screen first, each page as the guide has it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from dynoan.jobs import guide
from dynoan.show.pages.markdown import to_html
from dynoan.window.rendering import page

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from dynoan.window.desk import Desk

#: topics of the guide that a screen is about; one that the guide does not hold is left out
ABOUT = {
    "files": ("start", "files", "units"), "packs": ("packs", "tests", "shock", "pairs"), "curves": ("curves", "pairs"),
    "car": ("car", "ratios", "aims", "launch"), "log": ("setups", "trials", "phone", "safety"),
}  # fmt: skip
#: the policy of pages lets no style stand in a text; columns of numbers are known by their class
_ALIGNED = re.compile(r' style="text-align:(left|right|center)"')


def show(desk: Desk, request: Request) -> Response:
    """Show the topics, those of a screen first, or one of them."""
    asked, screen = request.query_params.get("topic"), request.query_params.get("screen", "")
    topics = guide.answer(guide.GuideQuestion()).topics
    near = [t for name in ABOUT.get(screen, ()) for t in topics if t.name == name]
    if asked is None:
        return page(desk, request, "help.html", near=near, topics=topics, topic=None, text="")
    (topic,) = guide.answer(guide.GuideQuestion(asked)).topics
    text = _ALIGNED.sub(r' class="\1"', to_html(topic.text))
    return page(desk, request, "help.html", near=near, topics=topics, topic=topic, text=text)


SHOWN = [("/help", show)]
