"""An error about the thing, said as the command line says it."""

from __future__ import annotations

import pytest

from dynoan.cli.hints import spoken
from dynoan.errors import CallError, QuantityError


@pytest.mark.parametrize(
    ("error", "line"),
    [
        (CallError("'x': wanted one of , ;", part="delimiter"), "--delimiter 'x': wanted one of , ;"),
        (CallError("'lsc' is not like lsc=6", part="clicks"), "--clicks: 'lsc' is not like lsc=6"),
        (QuantityError("must be above zero", part="body_amplitude"), "--body-amplitude: must be above zero"),
        (CallError("nothing to correct", need="correction"),
         "nothing to correct; give --shock, --pack, --clicks, --date or --temperature"),
        (CallError("demo: not empty; name another folder", need="demo folder"),
         "demo: not empty; name another folder: dynoan demo DIR"),
        (CallError("something no door has words for", need="luck"), "something no door has words for"),
    ],
)  # fmt: skip
def test_an_option_stands_in_front_and_the_way_out_behind(error, line):
    assert spoken(error) == line
