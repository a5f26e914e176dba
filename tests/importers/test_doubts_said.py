"""Wrong answers that would pass for right ones: each is said in one line with both values, or is no answer."""

from __future__ import annotations

from time import process_time

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.model.importing import LayoutCard, ReadOptions
from dynoan.reading import read_bytes
from importers.channels.clock_steps import judged_steps
from importers.channels.plausible import magnitudes_of_force
from importers.channels.rate import rate_of_times

PEAKS = "Velocity [mm/s],Compression [N],Rebound [N]\n50,300,400\n100,500,700\n200,800,1100\n"


def said(text: str, name: str = "run.csv", options: ReadOptions | None = None) -> str:
    return " | ".join(w for s in read_bytes(text.encode(), name, options) for w in s.warnings)


def trace_text(force, *, head: str = "", rate: float = 200.0) -> str:
    t = np.arange(len(force)) / rate
    x = 20 * np.sin(2 * np.pi * t)
    rows = [f"{a:.4f},{b:.4f},{c:.3f}" for a, b, c in zip(t, x, force, strict=True)]
    return "\n".join([*head.splitlines(), "Time [s],Position [mm],Force [N]", *rows]) + "\n"


def damping(gas: float, friction: float = 10.0, n: int = 800):
    v = 2 * np.pi * 0.02 * np.cos(2 * np.pi * np.arange(n) / 200.0)
    return 4000 * v + friction * np.tanh(v / 1e-4) + gas


@pytest.mark.parametrize(
    ("gas", "asked"), [(2.0, "the load cell was zeroed with the gas in"), (20.0, "is the unit of force right?")]
)
def test_a_force_at_rest_far_from_the_stated_gas_is_a_zeroed_cell_or_another_unit(gas, asked):
    head = "Gas pressure [bar],8\nRod diameter [mm],16"
    found = said(trace_text(damping(gas), head=head))
    assert asked in found
    assert "8 bar on a rod of 16 mm make 161 N" in found


def test_a_servo_that_goes_to_and_fro_at_several_strokes_is_not_called_random():
    t = np.arange(4000) / 200.0
    strokes = np.repeat([20.0, 7.0, 15.0, 4.0, 11.0], 800)
    x = strokes * np.sin(2 * np.pi * t)
    v = np.gradient(x / 1000, 1 / 200)
    rows = [f"{a:.4f},{b:.4f},{c:.3f}" for a, b, c in zip(t, x, 4000 * v + 100, strict=True)]
    assert "random" not in said("\n".join(["Time [s],Position [mm],Force [N]", *rows]) + "\n")


def test_a_plain_table_draws_no_doubt():
    assert said(PEAKS) == ""


TWO = "Serial: 1041,,,,Serial: 1042,,\nGas,8 bar,,,Gas,9 bar,,\nPack,a,,,Pack,b,,\nLSC,3,,,LSC,5,,\n"


def test_what_a_line_says_of_two_shocks_side_by_side_is_taken_for_each():
    row = "Speed [m/s],Bump [N],Rebound [N],,Speed [m/s],Bump [N],Rebound [N]\n"
    body = "".join(f"{v},{900 * v + 160},{-1500 * v},,{v},{800 * v + 150},{-1400 * v}\n" for v in (0.05, 0.1, 0.2, 0.4))
    found = read_bytes((TWO + row + body).encode(), "run.csv", None)
    assert [(s.shock, s.pack, s.gas_pressure, dict(s.clicks)) for s in found] == [
        ("1041", "a", 8e5, {"lsc": 3}),
        ("1042", "b", 9e5, {"lsc": 5}),
    ]
    assert not any("stands twice" in said for s in found for said in s.warnings)


def test_what_a_line_says_of_two_shocks_over_one_table_is_taken_for_neither():
    body = "".join(f"{v},{900 * v + 160},{-1500 * v},,,,\n" for v in (0.05, 0.1, 0.2, 0.4))
    (sweep,) = read_bytes((TWO + "Speed [m/s],Bump [N],Rebound [N],,,,\n" + body).encode(), "run.csv", None)
    assert (sweep.pack, sweep.gas_pressure, dict(sweep.clicks)) == (None, None, {})
    assert sweep.shock not in ("1041", "1042")
    for key, one, other in (("Serial", 1041, 1042), ("Gas", "8 bar", "9 bar"), ("Pack", "a", "b"), ("LSC", 3, 5)):
        assert f"'{key}' stands twice in a line, as {one} and {other}" in " | ".join(sweep.warnings)


def test_tons_of_force_are_said_to_be_short_ones_and_not_where_the_user_says_which():
    table = "Velocity [mm/s],Compression [tonf],Rebound [tonf]\n50,0.03,0.04\n100,0.05,0.07\n200,0.08,0.11\n"
    assert "US short tons, 8896 N each; --unit force=tf reads metric ones, 9807 N" in said(table)
    assert said(table, options=ReadOptions(units={"force": "tf"})).count("short tons") == 0


@pytest.mark.parametrize(
    ("line", "name", "value"),
    [
        ("Kolbenpaket,Schotter", "pack", "Schotter"), ("Pacchetto lamelle: ghiaia", "pack", "ghiaia"),
        ("Kolvstång: 14 mm", "rod", 0.014), ("Pístnice,14 mm", "rod", 0.014), ("Zuigerstang: 14 mm", "rod", 0.014),
        ("N2 charge: 11 bar @ 20C", "gas_pressure", 1.1e6), ("IFP pressure: 11 bar", "gas_pressure", 1.1e6),
    ],
)  # fmt: skip
def test_words_of_other_trades_and_tongues_for_what_a_shock_is(line, name, value):
    (sweep,) = read_bytes(f"{line}\n{PEAKS}".encode(), "run.csv", None)
    assert getattr(sweep, name) == (pytest.approx(value) if isinstance(value, float) else value)


def test_two_numbers_for_one_adjuster_are_said_and_none_is_taken():
    assert "c10-18" in said(PEAKS, "FL-03_C10-18_R18-10.csv")
    assert "two numbers" not in said(PEAKS, "FL-03_C10-18.csv", ReadOptions(clicks={"lsc": 10, "hsc": 18}))


def test_a_day_that_could_be_another_is_said():
    assert "05/02/2026" in said(f"Date: 05/02/2026\n{PEAKS}")
    assert said(f"Date: 05/13/2026\n{PEAKS}") == ""


@pytest.mark.parametrize(("dates", "day"), [("month-first", "2026-05-02"), ("day-first", "2026-02-05")])
def test_the_order_of_days_can_be_stated_in_a_call_or_in_a_layout(dates, day):
    file = f"Date: 05/02/2026\n{PEAKS}".encode()
    card = LayoutCard("shop", ("Velocity [mm/s]", "Rebound [N]"), dates=dates)
    for options in (ReadOptions(dates=dates), ReadOptions(layouts=(card,))):
        (sweep,) = read_bytes(file, "run.csv", options)
        assert (sweep.date, sweep.warnings) == (day, ())


def test_a_clear_day_is_as_it_stands_whatever_order_is_stated():
    (sweep,) = read_bytes(f"Date: 05/13/2026\n{PEAKS}".encode(), "run.csv", ReadOptions(dates="day-first"))
    assert sweep.date == "2026-05-13"


def test_name_and_contents_that_differ_are_said():
    assert "P3" in said(f"Pack: P2\n{PEAKS}", "Dämpfer FL 3 P3 kalt.csv")
    assert said(f"Pack: P2\n{PEAKS}", "Dämpfer FL 3 P2 kalt.csv") == ""


def test_speeds_no_dyno_reaches_are_said():
    assert "12 m/s" in said(PEAKS.replace("200,", "12000,"))


def test_two_units_of_one_column_are_said():
    assert "lbf" in said(PEAKS.replace("[N]", "[lbf]").replace("Velocity", "Forces in N\nVelocity", 1))


def test_force_that_is_not_pressure_times_rod_is_said():
    head = "Gas pressure: 203 psi\nRod: 0.63 in"
    assert "281 N" in said(trace_text(damping(1252.0), head=head))
    assert "281 N" not in said(trace_text(damping(290.0), head=head))


def test_gas_force_above_friction_is_evidence_and_friction_is_none():
    (gas,) = read_bytes(trace_text(-damping(150.0)).encode(), "run.csv")
    assert gas.decisions["force"].sign == -1
    assert "assumed" in said(trace_text(damping(150.0, friction=400.0)))


def test_a_record_without_its_mean_shows_no_direction():
    force = damping(150.0)
    stiffer_in_rebound = np.where(force < 150.0, 1.6 * force, force)
    assert "mean" in said(trace_text(stiffer_in_rebound - stiffer_in_rebound.mean()))


def test_parts_of_one_file_count_one_way():
    text = trace_text(-damping(150.0)) + "\nrun 2\n" + trace_text(-damping(0.0))
    assert {s.decisions["force"].sign for s in read_bytes(text.encode(), "run.csv")} == {-1}


def test_what_the_user_states_wins_over_gas_force_and_is_doubted():
    options = ReadOptions(positive="compression")
    (sweep,) = read_bytes(trace_text(-damping(150.0)).encode(), "run.csv", options)
    assert sweep.decisions["force"].sign == 1
    assert "gas force" in " ".join(sweep.warnings)


def test_the_users_rate_wins_over_the_time_column():
    text = trace_text(damping(150.0))
    (sweep,) = read_bytes(text.encode(), "run.csv", ReadOptions(rate=400.0))
    assert sweep.rate == 400.0
    assert "you were believed" in " ".join(sweep.warnings)


def test_rounded_stamps_give_the_rate_of_the_whole():
    time = np.round(np.arange(5000) / 3004.8, 4)
    assert rate_of_times(time, 1.0).hertz == pytest.approx(3004.8, rel=1e-3)


def test_dropped_samples_do_not_slow_the_rate():
    kept = np.delete(np.arange(400), slice(100, 105))
    assert rate_of_times(kept / 200.0, 1.0).hertz == pytest.approx(200.0, rel=1e-6)
    assert int(judged_steps(kept / 200.0).gaps.sum()) == 1


def test_a_unit_without_its_column_is_refused():
    with pytest.raises(ReadError, match="--unit displacement=cm had no effect"):
        read_bytes(PEAKS.encode(), "run.csv", ReadOptions(units={"displacement": "cm"}))


def test_one_of_several_columns_of_one_name_is_chosen():
    text = trace_text(damping(150.0)).replace("Position [mm],Force [N]", "x,x")
    options = ReadOptions(columns={"displacement": "x", "force": "x#2"}, units={"displacement": "mm", "force": "N"})
    with pytest.raises(ReadError, match="'x' for displacement could be 'x#1', 'x#2'"):
        read_bytes(text.encode(), "run.csv", options)
    chosen = ReadOptions(columns={"displacement": "x#1", "force": "x#2"}, units=options.units)
    (sweep,) = read_bytes(text.encode(), "run.csv", chosen)
    assert sweep.channels["force"].max() == pytest.approx(4000 * 2 * np.pi * 0.02 + 160, rel=1e-3)


@pytest.mark.parametrize("cell", ["Force" + "." * 60_000, "Velocity" + "(" * 60_000, "[" * 65_000])
def test_a_header_cell_without_end_takes_no_time(cell):
    started = process_time()
    with pytest.raises(ReadError):
        read_bytes(f"{cell},Force\n1,2\n2,3\n".encode(), "run.csv")
    assert process_time() - started < 2.0


@pytest.mark.parametrize(
    ("speed", "force", "said"),
    [
        ("mm/s", "N", ()),
        ("m/s", "N", ("velocity reaches only 0.4 mm/s, slower than a shock is tested: is its unit right?",)),
        ("mm/s", "kN", ("force reaches only 1.2 N, less than the friction of a shock: is its unit right?",)),
    ],
)
def test_a_table_whose_unit_is_a_thousand_times_too_small_is_told_of(speed, force, said):
    """The numbers are in `speed` and `force`, the names say mm/s and N."""
    v = np.array([50.0, 100, 200, 400]) / (1e3 if speed == "m/s" else 1)
    f = np.array([300.0, 500, 800, 1200]) / (1e3 if force == "kN" else 1)
    rows = [f"{a:g},{b:g},{b:g}" for a, b in zip(v, f, strict=True)]
    data = "\n".join(["Velocity (mm/s),Compression (N),Rebound (N)", *rows]).encode()
    (sweep,) = read_bytes(data, "rig.csv")
    assert sweep.warnings == said


T2 = np.arange(800) / 200
V2 = 0.157 * np.cos(2 * np.pi * T2)


@pytest.mark.parametrize(
    ("force", "lost"),
    [
        (np.abs(4000 * V2 + 140), True),
        (-np.abs(4000 * V2), True),
        (4000 * V2 + 140, False),
        (2000 * np.maximum(V2, 0.0) + 300, False),
        (400 * V2 + 900, False),
    ],
)
def test_a_trace_whose_force_lost_its_signs_is_told_of(force, lost):
    """A strong gas force may keep force positive, and a valve one way alone leaves one sign: neither lost its signs."""
    assert ("its signs are lost" in said(trace_text(force))) == lost


def test_gas_that_rises_over_travel_is_no_lost_sign():
    """Of one cycle that begins and ends extended, more samples stand at that end, where gas is weakest."""
    turn = 2 * np.pi * np.arange(181) / 180
    force = 250.0 - 60.0 * np.cos(turn) + 25.0 * np.sin(turn)
    assert magnitudes_of_force(force, 0.04 * np.sin(turn)) == ()
    assert len(magnitudes_of_force(np.abs(400.0 * np.sin(turn)) - 3.0 * np.cos(turn) + 5.0, 0.04 * np.sin(turn))) == 1
