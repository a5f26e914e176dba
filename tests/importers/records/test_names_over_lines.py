"""Names of columns that run over several lines are one line wherever they are shown."""

from __future__ import annotations

import json

import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from tests.importers.making import F, T, X

MOTION = {"time\n[s]": T.tolist(), "disp\r\n[mm]": (X * 1e3).tolist()}


def test_a_name_over_two_lines_is_read_and_shown_as_one():
    (sweep,) = read_bytes(json.dumps({**MOTION, "force\n[N]": F.tolist()}).encode(), "run.json")
    assert sweep.decisions["force"].column == "force [N]"
    assert sweep.channels["force"] == pytest.approx(F)


def test_a_refusal_stays_one_line():
    with pytest.raises(ReadError) as refused:
        read_bytes(json.dumps({**MOTION, "for\n\ufffd\n_q": F.tolist()}).encode(), "run.json")
    assert "\n" not in str(refused.value)
    assert "'disp [mm]'" in str(refused.value)
