"""Every held command still shows people the text that is stored, and leaves files that say the same."""

from __future__ import annotations

import pytest

from tests.golden import store
from tests.golden.answering import answer
from tests.golden.commands import LINES, cases
from tests.golden.compare import differences, report
from tests.golden.grounds import Grounds
from tests.golden.line import Line


@pytest.mark.parametrize("line", cases(line for line in LINES if line.plain))
def test_the_text_is_the_stored_one(line: Line, grounds: Grounds):
    stored = store.stored("plain", line)
    differing = differences(stored, answer("plain", line, grounds), line.tolerance)
    again = f"meant? then: python -m tests.golden.record --plain {line.slug}"
    assert not differing, f"{report(line.text, differing)}\n{again}"
