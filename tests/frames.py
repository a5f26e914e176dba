"""Pages with frames in the place of pictures, for tests of what else a page holds: drawing takes most of its time."""

from __future__ import annotations

import pytest

from dynoan.show.pages.report import blocks
from tests.once import drawn_anew


def framed(patch: pytest.MonkeyPatch) -> None:
    """Let the pictures of pages be made, and not drawn."""
    patch.setattr(blocks, "svg_text", lambda figure, label="": '<svg role="img"></svg>')
    drawn_anew(patch)
