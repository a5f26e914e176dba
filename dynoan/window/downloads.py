"""Pages that need no other file, to save: the sheet for the shop, the report, the page for the phone."""

from __future__ import annotations

import re

from starlette.responses import Response

_UNSAFE = re.compile(r"[^A-Za-z0-9 ._-]+")


def download(text: str, name: str) -> Response:
    """Return a file that the browser saves under a name."""
    safe = _UNSAFE.sub("_", name).strip(" .") or "page.html"
    return Response(
        text.encode(), media_type="text/html", headers={"Content-Disposition": f'attachment; filename="{safe}"'}
    )
