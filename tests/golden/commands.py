"""Every command line whose answer is held: data only."""

from __future__ import annotations

from tests.golden.demo_lines import DEMO
from tests.golden.file_lines import FILES
from tests.golden.line import Line
from tests.golden.second_lines import SECOND

LINES: tuple[Line, ...] = (*DEMO, *FILES, *SECOND)
BY_SLUG = {line.slug: line for line in LINES}
