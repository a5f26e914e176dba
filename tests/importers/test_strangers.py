"""Rig files that nobody told the importer of are read right with no options, or refused with what settles them."""

from __future__ import annotations

import pytest

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes
from tests.importers.strangers import MAKERS
from tests.importers.strangers.judging import verdict

#: files that leave open what is what, with the option that settles it
OPEN = {
    "two_shocks_trace_beside": "--column force=NAME",
}


@pytest.mark.parametrize("name", sorted(MAKERS.keys() - OPEN.keys()))
def test_a_strangers_file_is_read_right(name):
    assert verdict(MAKERS[name]()) == ("right", [])


@pytest.mark.parametrize("name", sorted(OPEN))
def test_what_a_file_leaves_open_is_asked(name):
    how, (said,) = verdict(MAKERS[name]())
    assert how == "refused"
    assert OPEN[name] in said


def test_the_files_are_many():
    assert len(MAKERS) >= 150


@pytest.mark.parametrize("channel", ["time", "temperature", "force", "compression"])
def test_a_column_of_words_is_no_channel(channel):
    data = b"Setting,Velocity [mm/s],Comp [N],Reb [N]\nC6 R8,50,100,200\nC6 R8,100,200,300\nC6 R8,200,300,400\n"
    with pytest.raises(ReadError, match=f"column 'Setting' holds words, no numbers, and so is no {channel}"):
        read_bytes(data, "card.csv", ReadOptions(columns={channel: "1"}))


def test_points_that_may_group_thousands_are_asked_about():
    data = b"Velocita (mm/s);Compressione (N);Estensione (N)\n100;1.250;2.100\n200;1.810;3.010\n400;2.400;4.200\n"
    with pytest.raises(ReadError, match="4200 N if it groups thousands"):
        read_bytes(data, "mille.csv")
    (sweep,) = read_bytes(data, "mille.csv", ReadOptions(decimal=","))
    assert float(sweep.channels["force"].max()) == 2400.0


def test_two_forces_a_speed_without_signs_are_asked_about():
    data = b"Velocity (mm/s);Force (N)\n50;200\n50;420\n100;330\n100;610\n200;480\n200;800\n"
    with pytest.raises(ReadError, match="each speed stands there twice"):
        read_bytes(data, "alt.csv")


def test_a_number_and_a_unit_in_brackets_may_be_a_range():
    rows = b"".join(b"%d;%d;%d\n" % (50 * n, 100 * n, 150 * n) for n in range(1, 6))
    with pytest.raises(ReadError, match="'10 kN' is no unit"):
        read_bytes(b"Speed [mm/s];Compression [10 kN];Rebound [10 kN]\n" + rows, "range.csv")


def test_a_factor_that_a_line_speaks_of_is_said():
    data = b"force channel to be multiplied by 10\nSpeed mm/s,Comp N,Reb N\n50,20,42\n100,33,61\n200,48,80\n"
    (sweep,) = read_bytes(data, "note.csv")
    assert any("speaks of a factor" in said for said in sweep.warnings)


def test_forces_without_a_speed_are_said_to_be_left_out():
    data = b"Velocity (mm/s);Force (N)\n-200;-500\n-100;-300\n;250\n100;200\n200;480\n"
    (sweep,) = read_bytes(data, "gap.csv")
    assert any("hold a force and no speed" in said for said in sweep.warnings)
