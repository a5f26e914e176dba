"""Clicks that name no adjuster: the knob of the direction over them, one knob for both where none stands over them."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes

SPEEDS = (50, 100, 200)
AT = {0: ((400, 600, 800), (500, 700, 900)), 8: ((200, 300, 400), (250, 350, 450))}
TITLED = [
    line
    for at, forces in AT.items()
    for way, force in zip(("Compression", "Rebound"), forces, strict=True)
    for line in (f"{way}, {at} clicks", "Velocity [mm/s],Force [N]", *map("{},{}".format, SPEEDS, force), "")
]
DOWN = [
    line
    for n, way in enumerate(("Compression", "Rebound"))
    for line in (
        f"{way} [N]",
        "Clicks,50 mm/s,100 mm/s,200 mm/s",
        *(",".join(map(str, (at, *AT[at][n]))) for at in AT),
        "",
    )
]
ACROSS = [
    line
    for n, way in enumerate(("Compression", "Rebound"))
    for line in (
        f"{way} [N]",
        "Velocity [mm/s],0 clicks,8 clicks",
        *(",".join(map(str, (v, *(AT[at][n][k] for at in AT)))) for k, v in enumerate(SPEEDS)),
        "",
    )
]
SIDES = [f"{v}," + ",".join(f"{AT[at][n][k]}" for at in AT for n in (0, 1)) for k, v in enumerate(SPEEDS)]
PAIRS = ["Velocity [mm/s],Comp 0 clicks [N],Reb 0 clicks [N],Comp 8 clicks [N],Reb 8 clicks [N]", *SIDES]
NAMES = "Velocity [mm/s],Compression [N],Rebound [N]"
OVER = [",0 clicks,,8 clicks,", f"{NAMES},Compression [N],Rebound [N]", *SIDES]
ROW = ["Clicks,0,0,8,8", *OVER[1:]]
STACKED = [
    line
    for at, (down, up) in AT.items()
    for line in (f"{at} clicks", NAMES, *map("{},{},{}".format, SPEEDS, down, up), "")
]
LONG = [
    "Clicks," + NAMES,
    *(",".join(map(str, (at, *row))) for at, f in AT.items() for row in zip(SPEEDS, *f, strict=True)),
]


def read(lines: list[str]) -> list[tuple[dict[str, int], list[float]]]:
    found = read_bytes("\n".join(["Shock FL-03", *lines, ""]).encode(), "clicks.csv")
    said = {"both knobs" if "c" in s.clicks else "names no direction" for s in found}
    assert all(any(words in w for s in found for w in s.warnings) for words in said)
    return [(dict(s.clicks), s.channels["force"].tolist()) for s in found]


@pytest.mark.parametrize("lines", [TITLED, DOWN, ACROSS, PAIRS], ids=["titled", "down", "across", "pairs"])
def test_clicks_under_a_direction_are_of_its_knob_below_and_beside_one_another(lines):
    assert read(lines) == [({"c": at, "r": at}, [*down, *(-f for f in up)]) for at, (down, up) in AT.items()]


@pytest.mark.parametrize("lines", [STACKED, LONG, OVER, ROW], ids=["stacked", "long", "over", "row"])
def test_clicks_over_both_directions_are_of_one_knob_below_and_beside_one_another(lines):
    assert read(lines) == [({"cr": at}, [*down, *(-f for f in up)]) for at, (down, up) in AT.items()]


def test_other_clicks_for_each_direction_stay_halves():
    lines = [line.replace("Rebound, 8", "Rebound, 10") for line in TITLED]
    found = read_bytes("\n".join(lines).encode(), "clicks.csv")
    assert [dict(s.clicks) for s in found] == [{"c": 0}, {"r": 0}, {"c": 8}, {"r": 10}]
    assert found[3].channels["force"].tolist() == [-250, -350, -450]


def test_a_line_of_one_direction_above_a_whole_run_is_its_setting():
    (sweep,) = read_bytes(b"Rebound: 8 clicks\nVelocity [mm/s],Force [N]\n-50,-90\n50,70\n100,90\n", "r8.csv")
    assert (sweep.clicks, sweep.channels["force"].tolist()) == ({"r": 8}, [-90, 70, 90])


def test_titles_at_a_click_and_of_a_shock():
    rows = "mm/s;N\n50;202\n100;260\n200;321\n"
    (whole,) = read_bytes(f"Compression @ 8\n{rows}\nRebound @ 8\n{rows}".encode(), "at.csv")
    assert dict(whole.clicks) == {"c": 8, "r": 8}
    halves = read_bytes(f"FL-3 Comp 8 clicks\n{rows}\nFL-3 Reb 4 clicks\n{rows}".encode(), "at.csv")
    assert [(s.shock, dict(s.clicks)) for s in halves] == [("FL-3", {"c": 8}), ("FL-3", {"r": 4})]
