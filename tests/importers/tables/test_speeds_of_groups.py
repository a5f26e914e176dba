"""Matrices: settings down, speeds across under a title a direction, units wherever people put them; clicks across."""

from __future__ import annotations

import io

import openpyxl
import pytest

from dynoan.reading import read_bytes

SPEEDS = [50, 150, 300, 600]
KNOBS = ["LSC", "HSC", "LSR", "HSR"]
ROWS = [
    [2, 4, 3, 5, 248, 488, 627, 877, 356, 775, 979, 1294],
    [6, 4, 3, 5, 219, 437, 574, 824, 356, 775, 979, 1294],
    [2, 4, 9, 5, 248, 488, 627, 877, 289, 639, 832, 1147],
]
METRES = [v / 1000 for v in SPEEDS]


def over(*titles: str, knobs: tuple[str | None, ...] = (None,) * 4) -> list[str | None]:
    return [*knobs, *(cell for title in titles for cell in (title, None, None, None))]


def book(*rows: list) -> bytes:
    made = openpyxl.Workbook()
    for row in rows:
        made.active.append(row)
    file = io.BytesIO()
    made.save(file)
    return file.getvalue()


HEADS = {
    "in the titles": [over("Druckkraft [N] bei mm/s", "Zugkraft [N] bei mm/s"), [*KNOBS, *SPEEDS, *SPEEDS]],
    "without brackets": [over("Comp. N @ m/s", "Reb. N @ m/s"), [*KNOBS, *METRES, *METRES]],
    "knobs beside the titles": [over("Compression [N]", "Rebound [N]", knobs=tuple(KNOBS)),
                                [None] * 4 + [f"{v} mm/s" for v in SPEEDS] * 2],
    "under the speeds": [over("Compression (N)", "Rebound (N)"), [*KNOBS, *SPEEDS, *SPEEDS],
                         ["clk"] * 4 + ["mm/s"] * 8],
    "in a line above": [["Forces in N, speeds in mm/s"], over("Compression", "Rebound"), [*KNOBS, *SPEEDS, *SPEEDS]],
    "a title over the knobs": [over("Comp [N] at mm/s", "Reb [N] at mm/s", knobs=("Setting (clicks)", *[None] * 3)),
                               [*KNOBS, *SPEEDS, *SPEEDS]],
    "a remark behind": [over("Compressione [N] a mm/s", "Estensione [N] a mm/s"), [*KNOBS, *SPEEDS, *SPEEDS, "Remark"]],
}  # fmt: skip


@pytest.mark.parametrize("heads", HEADS.values(), ids=HEADS)
@pytest.mark.parametrize("text", [False, True], ids=["workbook", "text"])
def test_speeds_take_their_units_from_wherever_they_stand(heads, text):
    rows = [["Dämpfer", "VL-44"], *heads, *([*row, "ok"] if heads[-1][-1] == "Remark" else row for row in ROWS)]
    lines = (";".join("" if cell is None else str(cell) for cell in row) for row in rows)
    sweeps = read_bytes("\n".join([*lines, ""]).encode() if text else book(*rows), "m.csv" if text else "m.xlsx")
    assert [s.shock for s in sweeps] == ["VL-44"] * 3
    assert [[s.clicks[k.lower()] for k in KNOBS] for s in sweeps] == [row[:4] for row in ROWS]
    for sweep, row in zip(sweeps, ROWS, strict=True):
        assert sweep.channels["velocity"].tolist() == pytest.approx([*METRES, *(-v for v in METRES)])
        assert sweep.channels["force"].tolist() == [*row[4:8], *(-f for f in row[8:])]


def test_letters_over_clicks_down_are_knobs():
    sweeps = read_bytes(
        book([None, None, "Comp [N] at mm/s", None, "Reb [N] at mm/s", None], ["C", "R", 50, 150, 50, 150],
             [2, 3, 248, 488, 356, 775], [6, 3, 219, 437, 356, 775]), "m.xlsx",
    )  # fmt: skip
    assert [s.clicks for s in sweeps] == [{"c": 2, "r": 3}, {"c": 6, "r": 3}]


@pytest.mark.parametrize(
    ("ways", "speed", "click"),
    [
        (("압축 (N)", "신장 (N)"), "속도 mm/s", "단"),
        (("압축력 N", "신장력 N"), "속도 mm/s", "단"),
        (("压缩力 N", "复原力 N"), "速度 mm/s", "档"),
        (("縮み側 N", "伸び側 N"), "速度 mm/s", "段"),
        (("Comp N", "Reb N"), "Speed mm/s", " clicks"),
    ],
)
def test_clicks_across_under_directions_in_eastern_words(ways, speed, click):
    head = [f"3{click}", f"8{click}"]
    rows = [[50, 196, 169, 295, 252], [100, 328, 284, 533, 457], [200, 425, 375, 706, 614]]
    sweeps = read_bytes(book([None, ways[0], None, ways[1], None], [speed, *head, *head], *rows), "m.xlsx")
    assert [s.clicks for s in sweeps] == [{"c": 3, "r": 3}, {"c": 8, "r": 8}]
    assert sweeps[1].channels["force"].tolist() == [169, 284, 375, -252, -457, -614]
