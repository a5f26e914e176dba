"""Tables: aligned, never a number cut, harmless text."""

import csv
import io
import sys

import pytest

from dynoan.show.text import tables

COLUMNS = ("setting", "force [N]", "ratio")
ROWS = (("gravel@lsc=6", "1234", "0.45"), ("mixed@lsc=12,lsr=3", "-56 ± 4", "–"))


def test_piped_table_is_plain_and_numbers_stand_to_the_right(capsys):
    tables.table(COLUMNS, ROWS, title="Forces")
    out = capsys.readouterr().out
    assert out.splitlines()[0] == "Forces"
    assert "\x1b" not in out
    first, second = out.splitlines()[3:5]
    assert first.index("1234") + 4 == second.index("-56 ± 4") + 7


class Terminal(io.StringIO):
    def isatty(self):
        return True


@pytest.mark.parametrize("width", [24, 40, 80, 200])
def test_narrow_terminal_cuts_no_number(monkeypatch, width):
    out = Terminal()
    monkeypatch.setattr(sys, "stdout", out)
    monkeypatch.setenv("COLUMNS", str(width))
    rows = [("a long remark about what was on the car that day", "123456.789", "0.123456")] * 3
    tables.table(("remark", "force [N]", "ratio"), rows)
    text = out.getvalue()
    assert text.count("123456.789") == 3
    assert text.count("0.123456") == 3
    assert max(map(len, text.splitlines())) <= width


def test_the_last_column_of_a_long_table_hangs_under_each_row_where_the_rest_fits():
    rows = [
        (f"id{i:08}", "FL-01", "lsc=10,hsc=10,lsr=10,hsr=10", f"{i}234", f"FL-01_gravel_lsc{i}.csv") for i in range(4)
    ]
    text = tables.fitted_text(("id", "shock", "clicks", "samples", "from"), rows, "", 50)
    lines = text.splitlines()
    assert lines[:2] == ["id          shock  clicks          samples", "    from"]
    assert lines[3:6] == [
        "id00000000  FL-01  lsc=10,hsc=10,     0234", "                   lsr=10,hsr=10", "    FL-01_gravel_lsc0.csv",
    ]  # fmt: skip
    assert len(lines) == 3 + 3 * len(rows)
    assert "    from" not in tables.fitted_text(("id", "shock", "clicks", "samples", "from"), rows[:2], "", 50)


def test_where_that_is_not_enough_the_last_columns_hang_under_each_row_with_their_heads_over_them():
    facts = ("FL-01", "gravel", "lsc=8,lsr=8", "2026-03-14", "trace")
    rows = [(f"id{i:08}", *facts, f"{i}234", f"FL-01_gravel_lsc{i}_lsr8.csv") for i in range(4)]
    heads = ("id", "shock", "pack", "clicks", "date", "layout", "samples", "from")
    lines = tables.fitted_text(heads, rows, "", 52).splitlines()
    assert lines[:2] == [
        "id          shock  pack    clicks       date", "    layout  samples  from",
    ]  # fmt: skip
    assert lines[3:5] == [
        "id00000000  FL-01  gravel  lsc=8,lsr=8  2026-03-14", "    trace      0234  FL-01_gravel_lsc0_lsr8.csv",
    ]  # fmt: skip
    assert len(lines) == 3 + 2 * len(rows)
    turned = tables.fitted_text(heads, rows[:2], "", 30).splitlines()
    assert turned[:2] == ["id       id00000000", "-------  ---------------------"]
    assert [line.split()[0] for line in turned[2:8]] == ["shock", "pack", "clicks", "date", "layout", "samples"]
    assert turned[8:10] == ["from     FL-01_gravel_lsc0_", "         lsr8.csv"]


def test_markup_and_control_characters_of_names_do_nothing(monkeypatch):
    out = Terminal()
    monkeypatch.setattr(sys, "stdout", out)
    monkeypatch.setenv("COLUMNS", "80")
    tables.table(("pack",), [("[bold]x[/bold]\x1b[2Jend",)])
    assert "[bold]x[/bold]" in out.getvalue()
    assert "\x1b[2J" not in out.getvalue()


def test_csv_reads_back():
    text = tables.csv_text(("a", "b"), [("x,y", 1.5), ('say "go"', 2)])
    assert list(csv.reader(io.StringIO(text))) == [["a", "b"], ["x,y", "1.5"], ['say "go"', "2"]]


def test_empty_table_still_shows_its_columns(capsys):
    tables.table(("a", "b"), [])
    assert capsys.readouterr().out.splitlines()[0] == "a  b"


def test_a_table_that_fits_is_the_piped_one():
    assert tables.fitted_text(COLUMNS, ROWS, "Forces", 80) == tables.plain_text(COLUMNS, ROWS, "Forces")


def test_long_heads_are_folded_before_the_table_is_turned():
    text = tables.fitted_text(("corner", "critical at wheel N s/m"), [("front left", "6165")], "", 24)
    assert (
        text == "            critical at\ncorner      wheel N s/m\n----------  -----------\nfront left         6165\n"
    )


def test_a_wide_table_is_turned_on_its_side_in_groups_that_fit():
    rows = [(name, "1234567890", "0.45", "gravel") for name in ("FL", "FR", "RL")]
    text = tables.fitted_text(("corner", "force", "ratio", "pack"), rows, "", 30)
    assert text == (
        "corner          FL          FR\n------  ----------  ----------\nforce   1234567890  1234567890\n"
        "ratio         0.45        0.45\npack        gravel      gravel\n\n"
        "corner          RL\n------  ----------\nforce   1234567890\nratio         0.45\npack        gravel\n"
    )


def test_columns_that_are_alike_stand_below_each_other_with_the_first():
    heads = ["", "A", "B", "C"]
    rows = [
        ["nose: highest rise, level road [mm]", "13.6 (12.4 to 15.0)", "13.7 (12.5 to 15.1)", "13.8 (12.6 to 15.2)"],
        ["rear: highest lift, level road [mm]", "0.0", "0.1", "0.2"],
    ]
    text = tables.fitted_text(heads, rows, "loose", 68, alike=True)
    assert max(map(len, text.splitlines())) <= 68
    first, second = text.split("\n\n")
    assert first.splitlines()[1].split() == ["A", "B"]
    assert second.splitlines()[0].split() == ["C"]
    assert [part.count("0.0") + part.count("0.2") for part in (first, second)] == [1, 1]
    whole = tables.fitted_text(heads, rows, "loose", 200, alike=True)
    assert whole == tables.plain_text(heads, rows, "loose")


def test_a_table_on_its_side_lines_words_up_to_the_left_and_numbers_to_the_right():
    words = tables.fitted_text(
        ("id", "pack", "from", "samples"), [("a1", "gravel", "a long file's name", "12")], "", 26
    )
    assert [line[9:] for line in words.splitlines() if not line.startswith("-")] == [
        "a1", "gravel", "a long file's", "name", "12"
    ]  # fmt: skip
    heads = ("direction", "low", "high", "a head that is long")
    numbers = tables.fitted_text(heads, [("compression", "0.31", "0.27", "12")], "", 24).splitlines()
    assert numbers[2].endswith("       0.31")
    assert len({len(line) for line in numbers[:4]}) == 1


def test_columns_that_do_not_fit_alone_are_turned_all_the_same():
    heads, rows = ["", "A", "B"], [["a" * 30, "1.0 (0.9 to 1.1)", "2.0 (1.9 to 2.1)"]]
    assert tables.fitted_text(heads, rows, "", 34, alike=True) == tables.fitted_text(heads, rows, "", 34)


def test_wide_characters_count_as_two():
    text = tables.fitted_text(("名前", "b"), [("日本", "1")], "", 80)
    assert text.splitlines()[1] == "----  -"


def test_a_long_name_is_broken_at_its_seams_before_a_table_is_turned():
    rows = [("fd9e", "lsc=10,hsc=10,lsr=10,hsr=10", "FL-01_gravel_lsc10_hsc10_lsr10_hsr10.csv")]
    text = tables.fitted_text(("id", "clicks", "from"), rows, "", 50)
    assert "fd9e" in text.splitlines()[2]
    for whole in ("lsc=10,", "hsr=10", "FL-01_", "hsr10.csv"):
        assert whole in text
    assert max(map(len, text.splitlines())) <= 50


def test_what_the_row_above_says_is_said_again_where_there_is_no_row_above():
    rows = [("front left", "gravel", "low", "0.123456"), ("", "", "high", "0.234567"), ("rear", "", "low", "0.345678")]
    text = tables.fitted_text(("corner", "a pack of valves", "speed", "ratio"), rows, "", 30)
    assert text.count("front left") == 2
    assert text.count("gravel") == 2
    plain = tables.fitted_text(("corner", "pack", "speed", "ratio"), rows, "", 80)
    assert plain.count("front left") == 1


def test_in_a_narrow_terminal_a_block_is_of_one_thing_and_shared_out_evenly():
    rows = [
        [corner, name, "0.28 to 0.43", "0.24 to 0.46", "between"]
        for corner in ("front left", "front right")
        for name in "abcd"
    ]
    text = tables.fitted_text(("corner", "measure", "at 50", "at 250", "tested"), rows, "", 46)
    blocks = [block.split("\n")[0].split("  ") for block in text.strip().split("\n\n")]
    named = [[cell.strip() for cell in block if cell.strip()][1:] for block in blocks]
    assert all(len(set(corners)) == 1 for corners in named)
    assert len({len(corners) for corners in named}) == 1
    assert sum(map(len, named)) == len(rows)
