"""Logged travel as a question and an answer: calibration, parts, a motion known beforehand, wrong questions."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from dynoan.errors import CallError, QuantityError
from dynoan.jobs.travel import TravelQuestion, answer
from dynoan.jobs.travel.asked import TravelScale
from dynoan.model.log import Log, LogColumn
from dynoan.show.plots.travel import figure
from dynoan.workbench import Workbench
from tests.cli.launch_library import make

AMPLITUDE, FREQUENCY = 0.0075, 1.7  #: of a raised cosine after two seconds of standing [m, Hz]
PEAK = AMPLITUDE * 2 * np.pi * FREQUENCY
DEMO = Path(__file__).parents[2] / "fixtures" / "demo" / "travel" / "kestrel_loose_run3.csv"


def swing(rate: float = 250.0) -> tuple[np.ndarray, np.ndarray]:
    time = np.arange(0.0, 6.0, 1 / rate)
    return time, np.where(time < 2.0, 0.0, AMPLITUDE * (1 - np.cos(2 * np.pi * FREQUENCY * (time - 2.0))))


def log(name: str = "Shock RL", unit: str = "mm", factor: float = 1e-3, zero: float = 0.0, **more: np.ndarray) -> Log:
    time, travel = swing()
    columns = {("time", "s"): time, (name, unit): zero + travel / factor}
    columns |= {(key, "km/h"): values for key, values in more.items()}
    return Log("d/log.csv", tuple(LogColumn(n, u, v, "log.csv") for (n, u), v in columns.items()))


def ask(given: Log, bench: Workbench | None = None, **asked):
    return answer(bench, TravelQuestion.asked(given, **asked))


class TestWhatAKnownMotionShows:
    def test_peak_and_depth_of_a_swing(self):
        (shock,) = ask(log()).shocks
        assert shock.corner == "rl"
        part = shock.travel.parts["all"]
        assert part.deepest == pytest.approx(2 * AMPLITUDE, rel=0.01)
        assert part.peak["compression"] == pytest.approx(PEAK, rel=0.02)
        assert part.peak["rebound"] == pytest.approx(PEAK, rel=0.02)

    def test_volts_count_by_scale_sign_and_zero(self):
        """40 V/m falling as the shock gets shorter, 2.1 V at rest."""
        asked = {"corner": {"rl": "POT_3"}, "scale": "-25 mm per V", "zero": "2.1 V"}
        (shock,) = ask(log("POT_3", "V", -0.025, 2.1), **asked).shocks
        assert shock.travel.parts["all"].deepest == pytest.approx(2 * AMPLITUDE, rel=0.01)
        assert (shock.zero, shock.scale) == ("the reading 2.1 V", "-25 mm per V")

    def test_zero_is_the_median_before_the_start(self):
        (shock,) = ask(log(zero=58.0)).shocks
        assert shock.zero == "the median before the start"
        assert shock.travel.parts["all"].longest == pytest.approx(0.0, abs=1e-4)

    def test_the_launch_begins_when_the_shocks_move(self):
        found = ask(log())
        assert "when the shocks begin to move" in found.parts_from
        assert float(found.parts_from.split()[4]) == pytest.approx(2.0, abs=0.15)

    def test_the_launch_begins_by_the_speed_where_it_is_logged(self):
        time, _ = swing()
        found = ask(log(speed=np.where(time < 1.0, 0.0, 20.0 * (time - 1.0))))
        assert "by the column 'speed'" in found.parts_from
        assert float(found.parts_from.split()[4]) == pytest.approx(1.09, abs=0.01)  # 0.5 m/s is 1.8 km/h

    def test_named_parts_and_the_rest(self):
        found = ask(log(), part={"early": (0.0, 1.5)})
        parts = found.shocks[0].travel.parts
        assert list(parts) == ["all", "early", "the rest"]
        assert found.parts_from == "as given"
        assert parts["early"].still == 1.0
        assert parts["all"].seconds == pytest.approx(parts["early"].seconds + parts["the rest"].seconds)

    def test_a_slow_logger_and_a_log_in_motion_are_warned_of(self):
        time = np.arange(0.0, 20.0, 0.02)
        columns = (LogColumn("time", "s", time, "x"), LogColumn("fl", "mm", 20 * np.sin(3 * time), "x"))
        warnings = ask(Log("x", columns)).warnings
        assert any("no launch found" in text for text in warnings)
        assert any("front left: logged at 50 Hz" in text for text in warnings)


class TestOnACar:
    def test_curves_give_knees_energies_and_ends(self, tmp_path, monkeypatch):
        bench = Workbench.find(make(tmp_path / "library", monkeypatch))
        part = ask(log(), bench, car="kestrel").shocks[0].travel.parts["all"]
        assert sum(r.share for r in part.ranges) == pytest.approx(1.0)
        assert all(k.below + k.above == pytest.approx(1.0) for k in part.knees)
        assert part.bottomed == (0, 0.0)
        assert ask(log()).shocks[0].travel.parts["all"].bottomed is None

    def test_low_speeds_are_drawn_large_and_knees_are_named(self, tmp_path, monkeypatch):
        found = figure(ask(log(factor=2e-4), Workbench.find(make(tmp_path / "library", monkeypatch)), car="kestrel"))
        left, right = (found.axes[1].transData.transform((v, 0.0))[0] for v in (0.0, 25.0))
        assert right - left > 0.4 * (found.axes[1].transData.transform((100.0, 0.0))[0] - left)
        assert "knee: the slope changes" in [text.get_text() for text in found.legends[0].get_texts()]

    def test_a_car_needs_a_library(self):
        with pytest.raises(CallError) as error:
            ask(log(), car="kestrel")
        assert error.value.need == "library"


class TestAWrongScale:
    @pytest.mark.parametrize(
        ("factor", "says"),
        [(1e-3 / 3 / 25.4, "Divided by 25.4"), (1e-3 * 25.4, "Times 25.4")],  # swings of 45 mm and of 15 mm
    )
    def test_one_off_by_the_millimetres_of_an_inch_is_said_without_a_car(self, factor, says):
        assert any(says in warning for warning in ask(log(factor=factor)).warnings)

    def test_a_right_one_is_not(self):
        assert not any("scale" in warning for warning in ask(log()).warnings)


class TestAnswer:
    def test_the_dict_is_what_json_prints(self):
        found = ask(log()).to_dict()
        assert set(found) == {"file", "parts_from", "corners"}
        assert found["file"] == "d/log.csv"
        assert set(found["corners"]["rl"]) == {
            "column", "unit", "scale", "zero", "rate_hz", "gaps", "filter", "still_below_m_s", "parts",
            "zero_at_m", "ask_for_m_s", "lost_samples", "sensor_end_share",
        }  # fmt: skip
        assert set(found["corners"]["rl"]["parts"]["all"]) == {
            "seconds", "still_share", "compression", "rebound", "bottoming", "topping", "deepest_m", "longest_m",
            "beyond_tested_share", "histogram",
        }  # fmt: skip

    def test_the_frame_has_a_row_a_shock_part_and_direction(self):
        frame = ask(log()).to_frame()
        assert list(frame.columns[:3]) == ["corner", "part", "direction"]
        assert len(frame) == 3 * 2
        assert frame["peak_m_s"].max() == pytest.approx(PEAK, rel=0.02)

    def test_the_demo_log_reads_through_the_importers(self):
        from dynoan.reading import read_log

        found = ask(read_log(DEMO))
        assert [shock.corner for shock in found.shocks] == ["fl", "fr", "rl", "rr"]
        assert found.shocks[0].column.unit == "mm"


class TestWrongQuestions:
    @pytest.mark.parametrize(
        ("asked", "part"),
        [
            ({"scale": "25"}, "scale"), ({"scale": "0 mm per V"}, "scale"), ({"scale": "5 N per V"}, "scale"),
            ({"window": "2 mm"}, "window"), ({"part": {"all": (1.0, 2.0)}}, "part"),
            ({"part": {"x": (5.0, 2.0)}}, "part"),
            ({"scale": {"xx": "25 mm per V"}}, "scale"), ({"corner": {"xx": "POT"}}, "corner"),
        ],
    )  # fmt: skip
    def test_a_wrong_value_is_about_its_part(self, asked, part):
        with pytest.raises((CallError, QuantityError)) as error:
            TravelQuestion.asked(log(), **asked)
        assert error.value.part == part
        assert "--" not in str(error.value)

    def test_a_column_without_a_length_needs_a_scale(self):
        with pytest.raises(QuantityError, match=r"log.csv: column 'POT' is in V, no length") as error:
            ask(log("POT", "V"), corner={"rl": "POT"})
        assert error.value.need == "scale"

    def test_no_column_that_names_a_corner_names_what_there_is(self):
        with pytest.raises(CallError, match="it has time, POT") as error:
            ask(log("POT", "V"))
        assert error.value.need == "corner"

    @pytest.mark.parametrize(
        ("asked", "says"),
        [
            ({"corner": {"rl": "POT_9"}}, "no column 'POT_9'; it has time, POT"),
            ({"corner": {"rl": "POT", "rr": "pot"}, "scale": "1 mm per V"}, "two corners"),
            ({"corner": {"rl": "POT"}, "scale": "25 mm per mm"}, "is in V, but the scale is '25 mm per mm'"),
            ({"corner": {"rl": "POT"}, "scale": "1 mm per V", "zero": "5 mm"}, "not in the unit of the scale"),
            ({"corner": {"rl": "POT"}, "scale": "1 mm per V", "window": 0.002}, "too narrow"),
            ({"corner": {"rl": "POT"}, "scale": "1 mm per V", "part": {"x": (90.0, 95.0)}}, "holds nothing"),
        ],
    )
    def test_what_does_not_fit_is_said(self, asked, says):
        with pytest.raises((CallError, QuantityError), match=says):
            ask(log("POT", "V"), **asked)


def test_scales_as_people_write_them():
    assert TravelScale.parsed("-25 mm/V").factor == -0.025
    assert TravelScale.parsed("1 in per mV").unit == "mv"
