"""The name of a group of a TDMS file says which shock and which clicks its channels are of, where no property does."""

from __future__ import annotations

import io

import pytest

from dynoan.reading import read_bytes
from tests.importers.making import F, T, X


@pytest.mark.parametrize(
    ("properties", "group", "shock", "clicks"),
    [
        ({}, "FL-3 C6 R8", "FL-3", {"c": 6, "r": 8}),
        ({"Shock": "RL-7"}, "FL-3", "RL-7", {}),
        ({"name": "Dyno log 17"}, "Untitled", None, {}),
    ],
)
def test_what_a_group_is_called(properties, group, shock, clicks):
    from nptdms import ChannelObject, RootObject, TdmsWriter

    out = io.BytesIO()
    channels = (("Time", T, "s"), ("Position", 1e3 * X, "mm"), ("Force", F, "N"))
    with TdmsWriter(out) as writer:
        made = [ChannelObject(group, name, values, {"unit_string": unit}) for name, values, unit in channels]
        writer.write_segment([RootObject(properties), *made])
    (sweep,) = read_bytes(out.getvalue(), "run.tdms")
    assert (sweep.shock, sweep.clicks) == (shock, clicks)
