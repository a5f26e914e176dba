"""What a picture's name must be, judged before anything is reckoned for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dynoan.errors import CallError

if TYPE_CHECKING:
    from pathlib import Path


def check_plot(path: Path) -> None:
    """Raise `CallError` where a file's name has no ending that a picture is written as."""
    if path.suffix.lower() not in (".png", ".svg", ".pdf"):
        raise CallError("a picture is written as .png, .svg or .pdf", where=path, hint="end the name with one of these")
