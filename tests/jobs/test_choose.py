"""Packs and clicks as question and answer, at no door: what may be asked, what comes back, and advice as data."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.corner.quarter_car import QuarterCar
from dynoan.analysis.road import velocity_spectrum
from dynoan.errors import CallError, LookupFault, QuantityError
from dynoan.jobs import ratio
from dynoan.jobs.answering import Answer
from dynoan.jobs.choose import ChooseQuestion, Limits, answer, best_settings
from dynoan.jobs.choose.advice import (
    EachSideItsOwn,
    LimitInTheWay,
    NeverTested,
    NothingFits,
    NotSure,
    OutOfReach,
    PackThatFits,
    ProposedTargets,
    SpringThatFits,
)
from dynoan.jobs.choose.aims import RatioWish, groups
from dynoan.jobs.choose.assumptions import JUDGED_AT, LIFTS, MOST_PROPOSED, PUBLISHED_MOST, PUBLISHED_RACING, SPENT
from dynoan.jobs.choose.limits import packs_at_hand
from dynoan.jobs.choose.proposals import begun, proposed, with_proposals
from dynoan.model.car import Target
from dynoan.show import presenting
from dynoan.show.text.choose_advice import sentence, sentences
from dynoan.units import GRAVITY
from dynoan.workbench import Workbench
from tests.checks import check
from tests.cli import corner_library
from tests.cli.corner_library import CAR, SOFT, change, put
from tests.oracles.quarter_car import road_response

garage = corner_library.garage
EASY = {"compression_low": 0.4, "compression_high": 0.3, "rebound_low": 0.65, "rebound_high": 0.44}


@pytest.fixture
def bench(garage):
    return Workbench.find(garage)


def asked(bench, car="kestrel", limits=None, **wish):
    return answer(bench, ChooseQuestion.asked(car, limits, **wish))


def by_hand(spring: float, sprung: float, shock_ratio: float, force: float, speed: float) -> float:
    """The secant damping ratio of one wheel: (F/v) R² over twice the root of spring rate at the wheel times mass."""
    return force / speed * shock_ratio**2 / (2 * np.sqrt(spring * 0.95**2 * sprung))


def test_a_question_takes_numbers_in_si_or_text():
    wish = ChooseQuestion.asked("kestrel", low="2 in/s", high=0.3, rebound_low=0.7).wish
    assert wish.low == pytest.approx(2 * 0.0254)
    assert (wish.high, wish.rebound, wish.compression) == (0.3, Target(0.7), Target())
    assert Limits.asked(packs="gravel, mixed,gravel", tolerance="12 %").packs == ("gravel", "mixed")
    assert Limits.asked(packs=["mixed"], tolerance="12 %") == Limits(("mixed",), tolerance=0.12)
    assert Limits.asked(tolerance=0.12).tolerance == 0.12


@pytest.mark.parametrize(
    ("given", "part"),
    [
        ({"axle": "left"}, "axle"), ({"corner": "lf"}, "corner"), ({"compression_low": 45.0}, "compression_low"),
        ({"rebound_high": float("nan")}, "rebound_high"), ({"low": "4 kg"}, "low"), ({"high": 12.0}, "high"),
        ({"rebound_compression": 0.0}, "rebound_compression"), ({"front_rear": 11.0}, "front_rear"),
    ],
)  # fmt: skip
def test_an_impossible_wish_names_its_part(given, part):
    with pytest.raises((CallError, QuantityError)) as wrong:
        RatioWish.asked(**given)
    assert wrong.value.part == part


@pytest.mark.parametrize(
    ("given", "part"),
    [
        ({"tolerance": "150 %"}, "tolerance"), ({"tolerance": 0.0}, "tolerance"), ({"tolerance": "3 kg"}, "tolerance"),
        ({"within": -1}, "within"), ({"within": 201}, "within"), ({"count": 0}, "count"), ({"count": 101}, "count"),
    ],
)  # fmt: skip
def test_an_impossible_limit_names_its_part(given, part):
    with pytest.raises((CallError, QuantityError)) as wrong:
        Limits.asked(**given)
    assert wrong.value.part == part


@pytest.mark.parametrize(
    ("given", "need"),
    [
        ({"corner": "fl", "axle": "front"}, "corner alone"), ({"corner": "fl", "per_corner": True}, "corner alone"),
        ({"like": "kestrel", "rebound_low": 0.5}, "like alone"), ({"like": "kestrel", "front_rear": 1.0}, "like alone"),
    ],
)  # fmt: skip
def test_parts_that_exclude_one_another_say_so(given, need):
    with pytest.raises(CallError) as wrong:
        RatioWish.asked(**given)
    assert wrong.value.need == need


def test_what_cannot_be_answered_speaks_of_the_thing(bench, garage):
    put(garage, "cars/bare.toml", CAR[: CAR.index("[targets.front]")])
    proposed = [one for one in asked(bench, "bare").advice if isinstance(one, ProposedTargets)]
    assert [one.axle for one in proposed] == ["front", "rear"]
    with pytest.raises(LookupFault, match="no setup and no car 'nothing'; it holds bare, kestrel") as wrong:
        asked(bench, like="nothing")
    assert wrong.value.part == "like"
    with pytest.raises(LookupFault) as wrong:
        asked(bench, limits=Limits(("wet",)))
    assert wrong.value.part == "packs"
    with pytest.raises(CallError) as wrong:
        asked(bench, limits=Limits(("mixed",), within=2))
    assert wrong.value.need == "limits"
    with pytest.raises(CallError, match=r"2 axles but 1 packs"):
        asked(bench, limits=Limits(("gravel",), once=True), **EASY)


def test_what_the_cars_file_likely_has_wrong_is_said(bench, garage):
    put(garage, "cars/odd.toml", change("shock_ratio = 0.92", "shock_ratio = 1.47"))
    found = asked(bench, "odd")
    assert any("shock_ratio: 1.47 would be more travel there than at the wheel" in text for text in found.warnings)
    assert not any("travel there" in text for text in asked(bench).warnings)


def test_packs_at_hand_are_those_named_else_all(bench, monkeypatch):
    assert packs_at_hand(bench, ()) == ("gravel", "mixed")
    assert packs_at_hand(bench, ("mixed",)) == ("mixed",)
    monkeypatch.setattr(type(bench.library), "packs", lambda _self: ())
    with pytest.raises(LookupFault, match="no sweep with a pack"):
        packs_at_hand(bench, ())


def test_places_and_their_targets(bench):
    car = bench.library.car("kestrel")
    (front,) = groups(bench, car, RatioWish())
    assert [p.name for p in front.places] == ["front"]
    assert [a.corner.name for a in front.places[0].aims] == ["fl", "fr"]
    assert front.places[0].aims[0].now == {"lsc": 4, "hsc": 5, "lsr": 4, "hsr": 5}
    apart = groups(bench, car, RatioWish.asked(per_corner=True, front_rear=0.8))
    assert [[p.name for p in g.places] for g in apart] == [["fl", "fr"], ["rl", "rr"]]
    rear = {(w.direction, w.velocity): w.ratio for w in apart[1].places[0].aims[0].wanted}
    assert rear == pytest.approx({
        ("compression", 0.05): 0.38 / 0.8, ("compression", 0.25): 0.30 / 0.8,
        ("rebound", 0.05): 0.65 / 0.8, ("rebound", 0.25): 0.45 / 0.8,
    })  # fmt: skip


def test_the_figures_of_the_best_are_those_of_the_force_at_its_clicks(bench):
    """The map is the made-up pack's truth, so the force is known beside all maps and fits."""
    from fixtures.rig import PACKS

    best = asked(bench, corner="fl", **EASY).best[0]
    n = best.choice.clicks
    for speed, at in ((0.05, "low"), (0.25, "high")):
        pack = PACKS[best.choice.pack]
        up = float(pack.compression.force(np.array([speed]), n["lsc"], n["hsc"], n["lsr"])[0])
        down = float(pack.rebound.force(np.array([speed]), n["lsr"], n["hsr"])[0])
        for direction, force in (("compression", up), ("rebound", down)):
            ratio = best.choice.ratio[direction, at].value
            # the map holds the truth at 41 speeds and is straight between them
            assert ratio == pytest.approx(by_hand(45e3, 268 - 34, 0.92, force, speed), rel=5e-3)
    off = [r.ratio.value / r.wanted.ratio - 1 for r in best.choice.reached]
    assert best.choice.miss == pytest.approx(float(np.sqrt(np.mean(np.square(off)))))


def test_the_lead_of_the_ranking_and_who_shares_a_rank(bench):
    found = asked(bench, limits=Limits(count=2), per_corner=True, axle="front")
    assert [(rank, c.choice.where) for rank, c in found.by_rank()] == [(1, "fl"), (1, "fr"), (2, "fl"), (2, "fr")]
    assert [c.choice.where for c in found.best] == ["fl", "fr"]


def test_clicks_go_out_as_each_shock_counts(bench, garage):
    put(garage, "shocks/FR-02.toml", SOFT)
    best = asked(bench, axle="front").best[0]
    assert best.clicks["fr"] == {name: 10 - click for name, click in best.clicks["fl"].items()}
    assert best.clicks["fl"] == best.choice.clicks
    assert best.clicks_text.startswith("fl lsc=")
    assert "; fr lsc=" in best.clicks_text
    assert best.per_click == best.choice.sensitivity


def test_plain_values_hold_the_promised_keys(bench, monkeypatch):
    monkeypatch.setattr(Answer, "presenter", None)
    found = asked(bench, axle="front", limits=Limits(count=3))
    with pytest.raises(NotImplementedError, match="no words here"):
        found.to_dict()
    monkeypatch.setattr(Answer, "presenter", presenting)
    plain = found.to_dict()
    assert set(plain) == {"choices", "tolerance", "fits", "advice", "cautions"}
    assert plain["advice"] == presenting.sentences(found)
    assert len(plain["advice"]) == len(found.advice)
    for row in plain["choices"]:
        assert set(row) >= {"where", "pack", "clicks", "ratio", "miss", "low", "high", "standing"}
        assert row["ratio"]["mean"] == pytest.approx(
            np.mean([row["ratio"][d][at] for d in ("compression", "rebound") for at in ("low", "high")])
        )


def test_the_frame_has_a_row_a_setting_and_bands(bench):
    found = asked(bench, axle="front", limits=Limits(count=4))
    frame = found.to_frame()
    assert list(frame["rank"]) == [1, 2, 3, 4]
    for d in ("compression", "rebound"):
        for at in ("low", "high"):
            name = f"ratio_{d}_{at}"
            assert (frame[f"{name}_lower"] < frame[name]).all()
            assert (frame[name] < frame[f"{name}_upper"]).all()
    assert frame["miss_pct"][0] == pytest.approx(100 * found.best[0].choice.miss)


def test_advice_where_all_is_well(bench):
    found = asked(bench, axle="front")
    assert not found.no
    assert NeverTested("front", ("FR-02",), found.best[0].choice.pack) in found.advice
    assert NotSure("front") in found.advice or found.best[0].choice.sure


def test_advice_where_nothing_fits(bench):
    found = asked(bench, corner="fl", compression_low=2.5, compression_high=0.1)
    assert found.no
    nothing = next(a for a in found.advice if isinstance(a, NothingFits))
    assert abs(nothing.worst.off) == max(abs(r.off) for r in found.best[0].choice.reached)
    reached = [a for a in found.advice if isinstance(a, OutOfReach)]
    assert {(a.reach.velocity, a.end) for a in reached} >= {(0.05, "most")}
    for a in reached:
        assert (a.reach.most < 0.9 * a.reach.wanted) if a.end == "most" else (a.reach.least > 1.1 * a.reach.wanted)
    pack = next(a for a in found.advice if isinstance(a, PackThatFits))
    given = {(r.wanted.direction, r.wanted.velocity): r for r in found.best[0].choice.reached}
    for need in pack.needs:
        r = given[need.direction, need.velocity]
        assert r.ratio.value * (1 + need.more) == pytest.approx(r.wanted.ratio)


def test_a_limit_in_the_way_comes_with_what_fits_without_it(bench):
    found = asked(bench, corner="fl", limits=Limits(within=0), **EASY)
    limit = next(a for a in found.advice if isinstance(a, LimitInTheWay))
    assert limit.limits == ("within",)
    assert limit.plan.fits
    without = asked(bench, corner="fl", **EASY).best[0].choice
    assert limit.plan.choices[0].choice.clicks == without.clicks


def test_sides_that_differ_are_told_what_fits_each(bench, garage):
    put(garage, "cars/uneven.toml", change('mass = "262 kg"', 'mass = "220 kg"'))
    found = asked(bench, "uneven", axle="front", **EASY)
    assert found.no
    own = next(a for a in found.advice if isinstance(a, EachSideItsOwn))
    apart = asked(bench, "uneven", axle="front", per_corner=True, **EASY)
    assert not apart.no
    assert [c.choice.clicks for c in own.plan.choices] == [c.choice.clicks for c in apart.best]
    assert not any(isinstance(a, EachSideItsOwn) for a in apart.advice)


def test_a_spring_that_would_fit_does(bench, garage):
    """Ratios below the least there is need a stiffer spring: the ratio goes with the inverse root of its rate."""
    soft = asked(bench, corner="fl", limits=Limits(count=1), compression_low=0.02, rebound_low=0.02)
    least = {k: b.value for k, b in soft.best[0].choice.ratio.items()}
    wish = {f"{d}_{at}": value * 0.75 for (d, at), value in least.items()}
    found = asked(bench, corner="fl", **wish)
    spring = next(a for a in found.advice if isinstance(a, SpringThatFits))
    assert spring.rates == (45e3,)
    assert spring.factor > 1
    put(garage, "cars/sprung.toml", change('spring = "45 N/mm"', f'spring = "{45 * spring.factor:.3f} N/mm"'))
    again = asked(bench, "sprung", corner="fl", limits=Limits(tolerance=0.101), **wish)
    assert not again.no


def test_curves_of_the_best_and_of_what_is_on_the_car(bench):
    (place,) = asked(bench, axle="front").curves()
    assert place.corner.name == "fl"
    assert place.now is not None
    assert (place.now.pack, dict(place.now.clicks)) == ("gravel", {"lsc": 4, "hsc": 5, "lsr": 4, "hsr": 5})
    assert {r.corner for r in place.wanted} == {"fl"}


def test_the_picture_has_a_row_a_place(bench):
    drawn = presenting.figure(asked(bench, **EASY))
    titles = [ax.get_title(loc="left") for ax in drawn.axes[::2]]
    assert titles == ["kestrel, front (front left drawn)", "kestrel, rear (rear left drawn)"]


def test_both_sides_of_an_axle_are_drawn_where_they_differ(bench, garage):
    put(garage, "cars/uneven.toml", change('mass = "262 kg"', 'mass = "340 kg"'))
    places = asked(bench, "uneven", **EASY).curves()
    assert [(p.where, p.corner.name) for p in places] == [("front", "fl"), ("front", "fr"), ("rear", "rl")]
    assert [p.corner.name for p in asked(bench, **EASY).curves()] == ["fl", "rl"]


def test_the_best_settings_of_a_car_are_those_ranked(bench, garage):
    car = bench.library.car("kestrel")
    maps = list(bench.click_maps(("gravel", "mixed")).values())
    best = best_settings(bench, car, maps, 3)
    ranked = asked(bench, limits=Limits(count=3))
    assert [b.choice for b in best] == [c.choice for _, c in ranked.by_rank()]
    assert {tuple(b.clicks) for b in best} == {("fl", "fr")}
    put(garage, "cars/bare.toml", CAR[: CAR.index("[targets.front]")])
    assert best_settings(bench, bench.library.car("bare"), maps, 3) == ()


def test_an_axle_without_targets_is_told_where_the_whole_car_was_asked_for(bench):
    assert "targets.rear" not in CAR
    assert asked(bench).warnings == (
        "rear: no target is set, so nothing is chosen for it; write [targets.rear] in cars/kestrel.toml",
    )
    assert asked(bench, axle="front").warnings == ()


def test_clicks_a_shock_does_not_have_are_told_with_file_and_corner(bench, garage):
    put(garage, "cars/over.toml", CAR.replace("lsc=4", "lsc=99"))
    with pytest.raises(QuantityError, match=r"^cars/over\.toml, \[f[lr]\] clicks: lsc=99 is outside"):
        ratio.answer(bench, ratio.RatioQuestion.asked("over"))


class TestTargetsForASurface:
    """What is proposed hangs on the surface: firmer where the road leaves the tyres alone, no further than is said."""

    def proposals(self, bench, garage, surface, roughness):
        stated = f'\nroughness = "{roughness}"' if roughness else ""
        text = CAR[: CAR.index("[targets.front]")] + f"\n[surfaces.{surface}]\ngrip = 0.8{stated}\n"
        put(garage, "cars/bare.toml", text)
        return {p.axle: p for p in proposed(bench.library.car("bare"), RatioWish(surface=surface))}

    def test_the_rougher_the_softer(self, bench, garage):
        found = [self.proposals(bench, garage, f"of{c}", c)["front"] for c in ("A", "B", "C", "D", "E")]
        middles = [one.middle for one in found]
        assert middles == sorted(middles, reverse=True)
        assert middles[0] > found[0].steadiest > middles[-1] > found[-1].smoothest
        assert [one.swing for one in found] == sorted(one.swing for one in found)

    def test_what_is_spent_of_steadiness_is_what_is_said(self, bench, garage):
        """The response of the whole quarter car, in the oracle, at the ratio that is proposed."""
        one = self.proposals(bench, garage, "asphalt", "B")["front"]
        corners, spectrum = bench.library.car("bare").axle("front"), velocity_spectrum(64e-6, JUDGED_AT)

        def swing(ratio):
            cars = [
                QuarterCar(c.sprung, c.unsprung, c.rate, c.tyre, 2 * np.sqrt(c.rate * c.sprung) * ratio)
                for c in corners
            ]
            return np.mean([
                road_response(car, spectrum).tyre_load / (c.mass * GRAVITY)
                for car, c in zip(cars, corners, strict=True)
            ])  # fmt: skip

        assert one.swing == pytest.approx(swing(one.steadiest), rel=0.02)
        if one.middle < MOST_PROPOSED:
            assert swing(one.middle) - one.swing == pytest.approx(SPENT * (1 - LIFTS * one.swing), rel=0.1)

    def test_without_roughness_the_body_alone_counts(self, bench, garage):
        assert self.proposals(bench, garage, "smooth", "")["rear"].middle == MOST_PROPOSED

    def test_written_down_they_are_still_no_ones_own(self, bench):
        """A start that was put into the file brings no advice to buy springs; a team's own target does."""
        car = bench.library.car("kestrel")
        written = with_proposals(car, proposed(car, RatioWish(surface="loose")))
        assert begun(written)
        front = written.targets["front"]
        own = replace(front, rebound=replace(front.rebound, low=front.rebound.low + 0.01))
        assert not begun(replace(written, targets={**written.targets, "front": own}))
        assert not begun(car)
        assert not begun(replace(car, targets={}))

    def test_they_are_wanted_at_the_speeds_the_car_is_told_at(self, bench):
        """The car's own, else those that are round in its library's units."""
        own = bench.library.car("kestrel")
        slow = replace(own.targets["front"], low_velocity=0.04)
        for car, speeds in (
            (replace(own, targets={"front": slow}), (0.04, slow.high_velocity)),
            (replace(own, targets={}, units="us"), (2 * 0.0254, 10 * 0.0254)),
        ):
            (one,) = proposed(car, RatioWish(axle="front", surface="loose"))
            assert (one.targets.low_velocity, one.targets.high_velocity) == pytest.approx(speeds)

    def test_they_stand_in_the_place_of_the_files(self, bench):
        found = asked(bench, surface="loose")
        one = next(p for p in found.advice if isinstance(p, ProposedTargets))
        assert one.replaces
        assert found.car.targets["front"] == one.targets
        assert "in the place of the file's" in sentence(one, "metric")
        assert proposed(found.car, RatioWish()) == ()

    def test_what_is_published_stands_beside_them_once(self, bench, garage):
        assert check("t17").expected == PUBLISHED_MOST
        assert tuple(check("t19").expected) == PUBLISHED_RACING
        put(garage, "cars/bare.toml", CAR[: CAR.index("[targets.front]")])
        said = sentences(asked(bench, "bare"))
        assert [text.partition(":")[0] for text in said[:3]] == ["front", "rear", "To hold them against"]
        assert "up to 0.5 on vehicles (Barton and Fieldhouse" in said[2]
        assert "To hold them against" not in " ".join(sentences(asked(bench)))

    def test_a_surface_that_is_none_is_named(self, bench):
        with pytest.raises(CallError, match="has no surface 'ice'; it has loose, smooth") as wrong:
            proposed(bench.library.car("kestrel"), RatioWish(surface="ice"))
        assert wrong.value.part == "surface"

    def test_typed_targets_exclude_it(self):
        with pytest.raises(CallError) as wrong:
            RatioWish.asked(surface="loose", rebound_low=0.5)
        assert wrong.value.need == "surface alone"
