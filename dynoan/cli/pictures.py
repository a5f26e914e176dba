"""Where a picture goes, judged before anything is reckoned for it."""

from __future__ import annotations

from pathlib import Path

from dynoan.errors import CallError


def check_plot(path: Path | None) -> None:
    """Raise `CallError` where a picture could not be written."""
    if path is not None and path.suffix.lower() not in (".png", ".svg", ".pdf"):
        raise CallError("a picture is written as .png, .svg or .pdf", where=path, hint="end the name with one of these")
    if path is not None and not path.absolute().parent.is_dir():
        raise CallError(f"there is no folder {path.parent}", where=path, hint="name a file in a folder that is there")
