"""WHAT, taken apart: every way of writing one setting is the same setting, and nothing is dropped silently."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dynoan.analysis.clickmap.assumptions.data import SAME_STATE_DAYS
from dynoan.errors import CallError, DynoanError, QuantityError
from dynoan.model.shock import ADJUSTERS, Adjuster, Shock, clicks_text
from dynoan.model.sweep import Source, Sweep
from dynoan.workbench.maps import joint_adjusters
from dynoan.workbench.resolving import Wanted, group_by_setting, parse_wanted
from dynoan.workbench.states import by_setting, latest

FEW = settings(max_examples=60, deadline=None)
NAMES = st.text(st.characters(codec="utf-8", exclude_characters=",=@;", exclude_categories=["Cs", "Zs", "Cc"]),
                min_size=1, max_size=12).filter(lambda n: n == n.strip())  # fmt: skip
CLICKS = st.dictionaries(st.sampled_from(list(ADJUSTERS)), st.integers(0, 999), max_size=4)


@dataclass(frozen=True)
class Record:
    """As much of a library's record as is asked for here."""

    shock: str | None = None
    pack: str | None = None
    date: str | None = None
    clicks: dict[str, int] = field(default_factory=dict)


@FEW
@given(NAMES, NAMES, CLICKS)
def test_a_setting_means_the_same_with_the_pack_in_front_or_as_a_key(shock, pack, clicks):
    rest = ",".join(filter(None, (f"shock={shock}", clicks_text(clicks))))
    expected = Wanted(shock=shock, pack=pack, clicks=clicks)
    assert parse_wanted(f"{pack}@{rest}") == expected
    assert parse_wanted(f"pack={pack},{rest}") == expected
    assert parse_wanted(f" Pack = {pack} , {rest.replace(',', ' , ')} ,") == expected


@FEW
@given(st.text(max_size=40))
def test_any_text_is_understood_or_refused(text):
    try:
        found = parse_wanted(text)
    except (CallError, QuantityError):
        return
    assert set(found.clicks) <= set(ADJUSTERS)
    for part in (found.shock, found.pack, found.date):
        assert part is None or part in text or part[:4] in text


@pytest.mark.parametrize("text", ["gravel@pack=mixed,lsc=6", "shock=RL-02,shock=RL-03", "date=2026,date=2025,pack=a"])
def test_a_part_named_twice_is_refused_and_not_the_last_taken(text):
    with pytest.raises(CallError, match="stands twice"):
        parse_wanted(text)


@pytest.mark.parametrize(
    ("text", "names"),
    [("pack=gravel,knob=6", ["knob=6", "shock", "lsr"]), ("gravel@lsc=1000", ["lsc=1000", "0 to 999"]),
     ("gravel@lsc=-1", ["lsc=-1"]), ("gravel@lsc=6,lsc=7", ["lsc", "twice"]), ("gravel@lsc=٣", ["lsc=٣"]),
     ("gravel@date=yesterday", ["yesterday", "2026-05-02"])],
)  # fmt: skip
def test_a_refusal_names_the_part_and_what_would_be_right(text, names):
    with pytest.raises(DynoanError) as caught:
        parse_wanted(text)
    assert all(name in str(caught.value) for name in names), str(caught.value)


def test_a_setting_fits_what_says_all_that_it_says():
    record = Record("RL-02", "gravel", "2026-03-14T10:00", {"lsc": 6, "lsr": 8})
    assert Wanted().fits(record)
    assert Wanted("RL-02", "gravel", "2026-03", {"lsr": 8}).fits(record)
    for other in (Wanted(shock="RL-0"), Wanted(pack="Gravel"), Wanted(date="2026-04"), Wanted(clicks={"lsc": 7}),
                  Wanted(clicks={"hsc": 0})):  # fmt: skip
        assert not other.fits(record)
    assert not Wanted(date="2026").fits(Record("RL-02"))


def a_sweep(number: int, shock: str | None = None, pack: str | None = None, **clicks: int) -> Sweep:
    return Sweep("trace", {"force": np.full(2, float(number))}, Source("f", "0"), shock, pack, clicks)


def test_sweeps_of_one_setting_come_together_in_order_and_nameless_ones_stay_apart():
    sweeps = (
        a_sweep(0, "A", lsc=1, lsr=2), a_sweep(1), a_sweep(2, "A", lsr=2, lsc=1), a_sweep(3), a_sweep(4, "A", lsc=1),
        a_sweep(5, None, "A"),
    )  # fmt: skip
    groups = [[int(s.channels["force"][0]) for s in group] for group in group_by_setting(sweeps)]
    assert groups == [[0, 2], [1], [3], [4], [5]]


@FEW
@given(st.lists(st.builds(Record, st.sampled_from([None, "A"]), st.sampled_from([None, "A"]), st.none(), CLICKS)))
def test_every_record_is_in_one_group_and_a_group_is_of_one_setting(records):
    groups = by_setting(records)
    assert sorted(id(r) for group in groups for r in group) == sorted(map(id, records))
    keys = [{(r.shock, r.pack, clicks_text(dict(sorted(r.clicks.items())))) for r in group} for group in groups]
    assert all(len(key) == 1 for key in keys)
    assert len(set.union(set(), *keys)) == len(groups)


def test_runs_of_another_season_are_left_out_for_the_same_setting_alone():
    new, edge, old = (Record("A", "p", d) for d in ("2026-05-02T09:00", "2026-03-03", "2026-03-02"))
    assert SAME_STATE_DAYS == 60  # 2 May less 60 days is 3 March
    other_shock, other_pack, undated, odd = (
        Record("B", "p", "2020-01-01"), Record("A", "q", "2020-01-01"), Record("A", "p"), Record("A", "p", "long ago"),
    )  # fmt: skip
    records = [old, new, edge, other_shock, other_pack, undated, odd]
    assert latest(records) == [r for r in records if r is not old]
    assert latest([]) == []


def test_a_later_run_of_one_setting_leaves_the_runs_of_others_alone():
    early, other, again = (
        Record("A", "p", "2025-05-02", {"lsc": 4}), Record("A", "p", "2025-05-02", {"lsc": 9}),
        Record("A", "p", "2026-05-02", {"lsc": 4}),
    )  # fmt: skip
    assert latest([early, other, again]) == [other, again]


def test_adjusters_of_several_shocks_have_the_most_clicks_of_any_in_the_usual_order():
    one = Shock("A", (Adjuster("lsr", 12), Adjuster("lsc", 20, "from soft")))
    two = Shock("B", (Adjuster("lsc", 24), Adjuster("hsc", 6)))
    assert joint_adjusters([one, two]) == (Adjuster("lsc", 24), Adjuster("hsc", 6), Adjuster("lsr", 12))
