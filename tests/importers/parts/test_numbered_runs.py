"""Numbers behind a direction's word: runs where they only count, clicks where they may be positions."""

from __future__ import annotations

import pytest

from importers.header import describe_column
from importers.parts.numbered_runs import numbered_runs


def runs(*names):
    return list(numbered_runs([describe_column(k, name) for k, name in enumerate(names)]).values())


@pytest.mark.parametrize(
    "form", ["Comp {} (N)", "Compression #{} [N]", "comp run {} N", "Bump {} N", "Druckstufe {} [N]"]
)
def test_words_that_are_counted_from_one_are_runs(form):
    assert runs(*(form.format(n) for n in (1, 2, 3))) == [1, 2, 3]


def test_both_directions_are_of_the_same_runs():
    assert runs("Comp 1 N", "Comp 2 N", "Reb 1 N", "Reb 2 N") == [1, 2, 1, 2]
    assert runs("Comp 1 N", "Comp 2 N", "Reb 1 N", "Reb 2 N", "Reb 3 N") == []


@pytest.mark.parametrize("names", [("Comp 0 N", "Comp 1 N"), ("Comp 4 N", "Comp 8 N"), ("C1 N", "C2 N"),
                                   ("Comp 1 click N", "Comp 2 clicks N"), ("C=1 comp N", "C=2 comp N"), ("Comp 1 N",),
                                   ("LSC 1 comp N", "LSC 2 comp N")])  # fmt: skip
def test_what_may_be_a_position_is_no_run(names):
    assert runs(*names) == []
