"""A remark that headings, signs or units are other than they stand is told, never heeded; no other remark is."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes

ROWS = ("Speed mm/s,Comp N,Reb N", "50,210,430", "100,300,640", "200,390,820", "300,450,930")


def read_with(remark: str, options: ReadOptions | None = None, rows=ROWS):
    (sweep,) = read_bytes("\n".join(("Shock: RL-4", remark, *rows, "")).encode(), "run.csv", options or ReadOptions())
    return sweep


def told(sweep) -> list[str]:
    return [said for said in sweep.warnings if "speaks against" in said]


@pytest.mark.parametrize(
    "remark",
    [
        "Note: columns are the wrong way round",
        "Caution: comp and reb swapped",
        "Remark: the second force column is actually compression",
        "Hinweis: Spalten vertauscht!",
        "Achtung: erste Spalte ist in Wirklichkeit Zugstufe",
        "Remarque : colonnes inversées",
        "La première colonne est en réalité la détente",
        "Nota: las columnas están intercambiadas",
        "Nota: colonne scambiate",
        "Obs: colunas trocadas",
        "Let op: kolommen omgewisseld",
        "OBS kolonnene er byttet om",
        "Uwaga: kolumny zamienione",
        "Pozn.: sloupce prohozené",
        "備考: 列が逆",
        "Примечание: столбцы перепутаны",
    ],
)
def test_headings_said_to_be_wrong(remark):
    sweep = read_with(remark)
    (said,) = told(sweep)
    assert remark in said
    assert "'Comp N' was read as compression and 'Reb N' was read as rebound" in said
    assert "--column compression=NAME" in said
    assert sweep.channels["force"].max() == pytest.approx(450)


@pytest.mark.parametrize(
    "remark",
    [
        "Remark: export was set to N by mistake, these are pounds",
        "Forces are actually lbf",
        "units wrong: this is kgf",
        "Einheit falsch, es sind daN",
        "Unités erronées, ce sont des daN",
        "Nota: unità sbagliata, sono kg",
        "Unidad equivocada, son kgf",
        "備考：単位が間違っている",
    ],
)
def test_units_said_to_be_wrong(remark):
    sweep = read_with(remark)
    (said,) = told(sweep)
    assert "'Comp N' in N" in said
    assert "--unit force=UNIT" in said
    assert sweep.channels["force"].max() == pytest.approx(450)


def test_signs_said_to_be_wrong():
    rows = ("Velocity mm/s,Force N", "50,210", "100,300", "200,390", "-50,-430", "-100,-640", "-200,-820")
    (said,) = told(read_with("Note: sign of the load channel is reversed", rows=rows))
    assert "--positive compression or --positive rebound" in said


@pytest.mark.parametrize(
    ("remark", "options"),
    [
        ("Note: comp and reb swapped", ReadOptions(columns={"compression": "Reb N", "rebound": "Comp N"})),
        ("Remark: set to N by mistake, these are pounds", ReadOptions(units={"force": "lbf"})),
    ],
)
def test_what_the_user_states_answers_a_remark(remark, options):
    assert not told(read_with(remark, options))


@pytest.mark.parametrize(
    "remark",
    [
        "Note: rebound should be softer",
        "Remark: compression is really harsh",
        "Note: wrong oil in this one, fitted by mistake",
        "Rebound shims swapped for the gravel ones",
        "Zugstufe: Kolben falsch herum eingebaut",
        "speed should be 100 mm/s at most",
        "Note: columns were swapped, has been corrected",
        "Columns swapped: no",
        "Load cell swapped before the test",
        "Position switch: 3",
        "Peak force really high at 0.3 m/s",
        "Les clapets de détente étaient inversés",
        "Operator: Wrong",
    ],
)
def test_remarks_of_other_things(remark):
    assert not told(read_with(remark))


def test_a_remark_below_the_table_counts():
    data = "\n".join((*ROWS, "", "Note: headings the wrong way round", "")).encode()
    (sweep,) = read_bytes(data, "run.csv")
    assert told(sweep)
    assert np.isfinite(sweep.channels["force"]).all()
