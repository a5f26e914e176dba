"""What lines in the words of many countries state: clicks, serials, days, temperatures."""

from __future__ import annotations

import pytest

from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes
from importers.stated import facts_of_lines, facts_of_name, statements

TABLE = "Speed (mm/s){0}Compression (N){0}Rebound (N)\n{1}"
ROWS = [(50, 300, 420), (100, 480, 700), (200, 700, 1010)]


def read(line: str, mark: str = ",", options: ReadOptions | None = None):
    rows = "".join(f"{v}{mark}{c}.5{mark}{r}.5\n" for v, c, r in ROWS)
    text = f"{line}\n" + TABLE.format(mark, rows.replace(".", "," if mark == ";" else "."))
    (sweep,) = read_bytes(text.encode(), "probe.csv", options)
    return sweep


@pytest.mark.parametrize(
    ("line", "clicks"),
    [
        ("DS/ZS: 8/10", {"c": 8, "r": 10}),
        ("D6 / Z8", {"c": 6, "r": 8}),
        ("Klicks D/Z: 6/8", {"c": 6, "r": 8}),
        ("Druckstufenklicks: 8", {"c": 8}),
        ("Puristusvaimennus: 6 naksua", {"c": 6}),
        ("圧側減衰 8 / 伸側減衰 10", {"c": 8, "r": 10}),
        ("圧側減衰力: 8段 / 伸側減衰力: 10段", {"c": 8, "r": 10}),
        ("Clicks: six comp, eight reb", {"c": 6, "r": 8}),
        ("Rebound: eight", {"r": 8}),
        ("Nyomó klikk;7", {"c": 7}),
        ("Húzó klikk;5", {"r": 5}),
        ("Rugózás vissza klikk;14", {"r": 14}),
        ("壓縮段數;6", {"c": 6}),
        ("回彈段數;9", {"r": 9}),
        ("Κλικ συμπίεσης;8", {"c": 8}),
        ("Κλικ επαναφοράς: 3", {"r": 3}),
        ("Drawing D6/4", {}),
        ("Rebound two", {}),
    ],
)
def test_clicks(line, clicks):
    sweep = read(line)
    assert (sweep.clicks, [w for w in sweep.warnings if "click" in w]) == (clicks, [])


def test_a_bare_number_of_a_direction_that_is_a_word_for_pressure_too_is_told_once():
    assert (read("Druck: 6").clicks, read("Druck: 6").warnings) == ({"c": 6}, ())


@pytest.mark.parametrize("line", ["Reb: -6", "Reb;-6"])
def test_less_than_no_clicks_is_not_taken_where_that_is_said(line):
    sweep = read(line)
    assert dict(sweep.clicks) == {}
    assert "less than no clicks: not taken" in sweep.warnings[0]


@pytest.mark.parametrize(
    "key", ["Serien-Nr.", "N° de série", "Nº de serie", "N. serie", "Matricola", "Nr seryjny", "Výrobní číslo",
            "Sarjanumero", "Serienummer", "シリアル番号", "序列号", "Серийный номер", "N/S",
            "Skokbreker", "Rugóstag", "Tłumik", "品番", "型號", "避震器"]
)  # fmt: skip
def test_serials(key):
    assert read(f"{key}: VL-12").shock == "VL-12"


@pytest.mark.parametrize(
    ("line", "day"),
    [
        ("Datum: 12. května 2024", "2024-05-12"),
        ("Datum: 3. ledna 2024", "2024-01-03"),
        ("Dátum: 2024. szeptember 5.", "2024-09-05"),
        ("Data: 5 czerwiec 2024", "2024-06-05"),
        ("Dátum: 2024. 09. 05.", "2024-09-05"),
        ("試驗日期: 2024年9月5日", "2024-09-05"),
        ("Datum: 05/02/2024", "2024-02-05"),
        ("Data: 05-02-2024", "2024-02-05"),
    ],
)
def test_days(line, day):
    assert read(line).date == day


def test_a_day_beside_decimal_commas_has_its_number_first_and_says_so():
    sweep = read("Date : 05/02/2024", ";")
    assert sweep.date == "2024-02-05"
    assert "'05/02/2024' was taken as 2024-02-05" in sweep.warnings[0]
    assert read("Date : 05/02/2024", ";", ReadOptions(dates="month-first")).date == "2024-05-02"
    assert read("Date : 05/02/2024").date is None


@pytest.mark.parametrize("line", ["Πίεση αερίου: 10 bar", "氣壓: 10 bar", "Πίεση αερίου;10 bar"])
def test_gas(line):
    assert read(line).gas_pressure == pytest.approx(1e6)


@pytest.mark.parametrize(
    "names", ["速度 (mm/s),壓縮 (N),回彈 (N)", "Sebesség (mm/s),Nyomóerő (N),Húzóerő (N)",
              "Ταχύτητα (mm/s),Δύναμη συμπίεσης (N),Δύναμη επαναφοράς (N)"]
)  # fmt: skip
def test_directions_of_columns(names):
    (sweep,) = read_bytes(f"{names}\n50,300,420\n100,480,700\n200,700,1010\n".encode(), "probe.csv")
    assert sorted(sweep.channels["force"]) == [-1010.0, -700.0, -420.0, 300.0, 480.0, 700.0]


def test_clicks_and_forces_of_one_word_stand_beside_one_another():
    rows = "1,5,50,208,278\n1,5,100,346,502\n9,5,50,163,278\n9,5,100,275,502\n"
    names = "Nyomó klikk,Húzó klikk,Sebesség (mm/s),Nyomóerő (N),Húzóerő (N)\n"
    found = read_bytes(f"{names}{rows}".encode(), "probe.csv")
    assert [dict(s.clicks) for s in found] == [{"c": 1, "r": 5}, {"c": 9, "r": 5}]


def test_temperature_and_an_amplitude_from_peak_to_peak():
    assert read("Temperatuur: 26 °C").temperature == 26.0
    assert facts_of_lines(["Amplitude: 50 mm p-p"]).stroke == pytest.approx(0.05)


@pytest.mark.parametrize("line", ["Bump clicks,4.5", "LSC: 3½", "Comp,4 1/2", "Comp: 4,5", "Reb: 2.25 clicks"])
def test_parts_of_a_click_are_told_and_not_taken(line):
    sweep = read(line)
    assert dict(sweep.clicks) == {}
    assert "is no whole number of clicks" in sweep.warnings[0]


@pytest.mark.parametrize(
    ("line", "clicks"), [("LSC/LSR: 6,5", {"lsc": 6, "lsr": 5}), ("LSC;4,0", {"lsc": 4}), ("Rod: 5/8 in", {})]
)
def test_what_are_no_parts_of_a_click(line, clicks):
    assert (dict(read(line).clicks), read(line).warnings) == (clicks, ())


def test_the_adjuster_that_is_counted_from_soft_is_named_where_another_is_not():
    (warning,) = read("Compression: 4 clicks from closed\nRebound: 6 clicks from open").warnings
    assert warning == "the file counts the clicks of r from soft; the shock's file must say so too"
    (warning,) = read("Compression: 4 clicks from open\nRebound: 6 clicks from open").warnings
    assert warning == "the file counts clicks from soft; the shock's file must say so too"


@pytest.mark.parametrize(
    ("line", "way"),
    [
        ("Rozciąganie dodatnie", "rebound"), ("Drag positivt", "rebound"), ("Veto positiivinen", "rebound"),
        ("Trek positief", "rebound"), ("Tah kladný", "rebound"), ("引張正", "rebound"),
        ("伸び側を正とする", "rebound"), ("圧縮正", "compression"), ("Puristus positiivinen", "compression"),
        ("Tlak záporný", "rebound"),
    ],
)  # fmt: skip
def test_which_way_is_positive(line, way):
    assert statements([line]) == {"all": way}


@pytest.mark.parametrize("line", ["ガス力補正", "Drag 12 N", "Pressure: positive 4 bar", "Seal drag - 5 N"])
def test_what_says_no_sign(line):
    assert statements([line]) == {}


@pytest.mark.parametrize(
    ("name", "temperature"), [("RL-02_gravel_35C.csv", 35.0), ("RL-02 110F.csv", 43.33), ("RL-02_35C_20R.csv", None),
                              ("RL-02_8C.csv", None)]
)  # fmt: skip
def test_a_temperature_in_a_name(name, temperature):
    found = facts_of_name(name).temperature
    assert found == (None if temperature is None else pytest.approx(temperature, abs=0.01))


@pytest.mark.parametrize(
    ("line", "stroke"), [("Crank with 50 mm stroke", 0.05), ("±25 mm stroke", 0.05), ("120 mm stroke damper", None),
                         ("shock of 2 in stroke", None), ("2 in stroke", 0.0508)]
)  # fmt: skip
def test_a_stroke_behind_its_number(line, stroke):
    assert facts_of_lines([line]).stroke == (None if stroke is None else pytest.approx(stroke))


@pytest.mark.parametrize("over", ["Pack;gravel;;tarmac;", "Shock;FL-1;;FL-2;"])
def test_what_groups_of_columns_are_called_by(over):
    text = f"{over}\nVelocity (mm/s);Comp (N);Reb (N);Comp (N);Reb (N)\n" + "".join(
        f"{v};{c};{r};{c + 50};{r + 60}\n" for v, c, r in ROWS
    )
    first, second = read_bytes(text.encode(), "groups.csv")
    assert [s.pack or s.shock for s in (first, second)] == over.split(";")[1::2]


def test_the_code_page_of_taiwan_is_known_by_its_words():
    text = (
        "試驗日期,2026/03/14\n氣壓,8 kgf/cm2\n" + "速度(mm/s),壓縮(N),回彈(N)\n50,300,420\n100,480,700\n200,700,1010\n"
    )
    (sweep,) = read_bytes(text.encode("big5"), "probe.csv")
    assert (sweep.date, sweep.gas_pressure) == ("2026-03-14", pytest.approx(784532.0))


@pytest.mark.parametrize("title", ["Mono IT-5   velocità cm/s   forza kg", "Mono IT-5, velocità cm/s, forza kg"])
def test_units_stand_in_a_title_between_blanks(title):
    assert facts_of_lines([title]).units == {"velocity": "cm/s", "force": "kg"}


def test_what_stands_beside_a_known_key_is_what_the_file_says():
    found = facts_of_lines(["Damper\tUK-8\tGas force at mid stroke (N)\t212"])
    assert (found.shock, found.gas_pressure) == ("UK-8", None)
    assert found.lines["Gas force at mid stroke (N)"] == "212"
    assert dict(facts_of_lines(["Shock\tUK-8\t50\tN"]).lines) == {"Shock": "UK-8"}
