"""The unit of one column, named as it stands or by its number, whatever it is called."""

from __future__ import annotations

import pytest

from dynoan.errors import CallError, ReadError
from dynoan.jobs.read.options import read_options
from dynoan.reading import read_bytes
from tests.importers.making import F, T, V, X


def read(head: str, columns, *units: str):
    rows = "\n".join(",".join(f"{v:.5f}" for v in row) for row in zip(*columns, strict=True))
    (sweep,) = read_bytes(f"{head}\n{rows}\n".encode(), "rig.csv", read_options({"units": units}))
    return sweep


@pytest.mark.parametrize("column", ["Zelle A=B", "3", "zelle a=b"])
def test_a_column_of_an_odd_name_is_what_its_unit_says(column):
    sweep = read("Time [s],Disp [mm],Zelle A=B", (T, X * 1e3, F / 1e3), f"{column}=kN")
    assert sweep.channels["force"] == pytest.approx(F, abs=0.01)
    assert sweep.decisions["force"].evidence.startswith("stated by the user")


def test_one_of_two_columns_alone_gets_the_unit():
    sweep = read("Velocity [mm/s],Comp [N],Reb [N]", ([50, 100, 200], [1, 2, 3], [200, 300, 400]), "Comp=kN")
    assert sorted(sweep.channels["force"]) == pytest.approx([-400, -300, -200, 1000, 2000, 3000])
    assert any("taken in kN as told, though the file says N" in w for w in sweep.warnings)


def test_names_twice_are_told_apart():
    columns = (T, X * 1e3, V * 1e3, F)
    sweep = read("Time [s],Kanal,Kanal,Force [N]", columns, "Kanal#1=mm", "Kanal#2=mm/s")
    assert sweep.channels["displacement"] == pytest.approx(X, abs=1e-6)
    assert sweep.channels["velocity"] == pytest.approx(V, abs=1e-6)


def test_a_column_that_is_not_there_is_named():
    with pytest.raises(
        ReadError, match="no column 'Zelle' for unit kN; the file has: Time \\[s\\], Disp \\[mm\\], Load"
    ):
        read("Time [s],Disp [mm],Load", (T, X, F), "Zelle=kN")


def test_a_unit_of_another_kind_is_refused():
    with pytest.raises(ReadError, match="column 'Disp' is displacement, and 'kN' is no unit of length"):
        read("Time [s],Disp,Force [N]", (T, X, F), "Disp=kN")


def test_what_is_no_unit_is_refused():
    with pytest.raises(CallError, match="wanted CHANNEL=VALUE"):
        read_options({"units": ["Zelle=stones"]})
