"""What is stated of a file, however it is given: text as typed, mappings and numbers as a script has them."""

from __future__ import annotations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from dynoan.errors import CallError, QuantityError
from dynoan.jobs.read.options import OTHER_COLUMNS, asked_clicks, read_options, with_layouts
from dynoan.model.importing import ReadOptions
from dynoan.model.shock import ADJUSTERS
from dynoan.model.sweep import CHANNEL_KINDS
from dynoan.workbench import Workbench
from tests.library.made import LAYOUT

CHANNELS = st.sampled_from(sorted(CHANNEL_KINDS))
COLUMNS = st.sampled_from([*CHANNEL_KINDS, *OTHER_COLUMNS])
VALUES = st.text(min_size=1).map(str.strip).filter(bool)
CLICKS = st.dictionaries(st.sampled_from(sorted(ADJUSTERS)), st.integers(0, 999))


def or_part(ask):
    """What is found, or what the refusal is about."""
    try:
        return ask()
    except CallError as error:
        return error.part


def test_nothing_stated_leaves_all_to_the_file():
    assert read_options({}) == ReadOptions()
    assert read_options({"shock": None, "clicks": None, "units": (), "rate": None}) == ReadOptions()


@settings(deadline=None)
@given(st.dictionaries(CHANNELS, VALUES))
@example({"displacement": "0=#"})
def test_units_as_text_are_units_as_a_mapping(units):
    typed = [f" {channel.upper()} = {unit}" for channel, unit in units.items()]
    assert read_options({"units": typed}).units == read_options({"units": units}).units == units


@settings(deadline=None)
@given(st.dictionaries(COLUMNS, VALUES))
def test_columns_as_text_are_columns_as_a_mapping(columns):
    typed = tuple(f"{channel}={column}" for channel, column in columns.items())
    assert read_options({"columns": typed}).columns == read_options({"columns": columns}).columns == columns


@settings(deadline=None)
@given(CLICKS)
def test_clicks_as_text_are_clicks_as_a_mapping(clicks):
    typed = "; ".join(f"{name} = {click}" for name, click in clicks.items())
    assert asked_clicks(typed) == asked_clicks(clicks) == clicks


@settings(deadline=None)
@given(st.text())
def test_any_text_for_clicks_is_clicks_or_one_error_about_them(text):
    found = or_part(lambda: asked_clicks(text))
    if found != "clicks":
        assert bool(found) == bool(text.strip())
        assert set(found) <= set(ADJUSTERS)


@settings(deadline=None)
@given(st.lists(st.text()))
def test_any_texts_for_columns_are_columns_or_one_error_about_them(texts):
    found = or_part(lambda: read_options({"columns": texts}).columns)
    if found != "column":
        assert len(found) <= len(texts)
        assert all(value == value.strip() != "" for value in found.values())


@settings(deadline=None)
@given(st.floats(1.0, 1e7))
def test_a_rate_is_a_number_in_hertz_or_text_with_a_unit(rate):
    assert read_options({"rate": rate}).rate == rate
    assert read_options({"rate": f"{rate!r} Hz"}).rate == pytest.approx(rate)
    assert read_options({"rate": f"{rate!r} kHz" if rate < 1e4 else f"{rate!r} 1/s"}).rate == pytest.approx(
        1000 * rate if rate < 1e4 else rate
    )


@pytest.mark.parametrize("rate", [0, -5.0, 0.99, 1.1e7, float("nan"), float("inf"), "0 Hz", "1000", "1000 N", "fast"])
def test_a_rate_no_rig_has_is_refused(rate):
    with pytest.raises(QuantityError) as wrong:
        read_options({"rate": rate})
    assert wrong.value.part == "rate"


@pytest.mark.parametrize(
    ("stated", "part"),
    [
        ({"clicks": "6"}, "clicks"), ({"clicks": "lsc=1,lsc=2"}, "clicks"), ({"clicks": {"lsc": 6.5}}, "clicks"),
        ({"clicks": {"bleed": 6}}, "clicks"), ({"clicks": " , "}, "clicks"),
        ({"units": {"torque": "Nm"}}, "unit"), ({"units": "force"}, "unit"), ({"units": ["force= "]}, "unit"),
        ({"columns": {"lap": "3"}}, "column"), ({"positive": "bump"}, "positive"), ({"delimiter": "x"}, "delimiter"),
        ({"decimal": ";"}, "decimal"),
    ],
)  # fmt: skip
def test_an_error_is_about_the_part_that_is_wrong_and_names_no_option(stated, part):
    with pytest.raises(CallError) as wrong:
        read_options(stated)
    assert wrong.value.part == part
    assert "--" not in str(wrong.value)


@pytest.mark.parametrize(
    ("typed", "mark"),
    [("comma", ","), ("Semicolon", ";"), ("tab", "\t"), ("\\t", "\t"), ("\t", "\t"), ("pipe", "|"), (" ", "blanks")],
)
def test_marks_may_be_called_by_name(typed, mark):
    assert read_options({"delimiter": typed}).delimiter == mark


def test_layouts_come_from_the_library_at_hand(library):
    bench = Workbench.find(library.path)
    (library.path / "layouts" / "old-rig.toml").write_text(LAYOUT)
    options = read_options({"shock": "FL-01"})
    assert [card.name for card in with_layouts(options, bench).layouts] == ["old-rig"]
    assert with_layouts(options, bench).shock == "FL-01"
    assert with_layouts(options, None) == options
    (library.path / "layouts" / "old-rig.toml").write_text("header = 3")
    assert with_layouts(options, bench).layouts == ()


def test_a_faulty_layout_is_told_once_and_the_others_hold(library):
    (library.path / "layouts" / "old-rig.toml").write_text("header = 3")
    (library.path / "layouts" / "new-rig.toml").write_text(LAYOUT)
    said = []
    bench = Workbench(library, said.append)
    for _ in range(2):
        assert [card.name for card in with_layouts(read_options({}), bench).layouts] == ["new-rig"]
    (one,) = said
    assert one.startswith("layouts/old-rig.toml: ")
    assert one.endswith("files are read without this layout")
