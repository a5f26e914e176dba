"""What `dynoan ratio` found, as tables for people and as JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from dynoan.cli.call import Call
from dynoan.model.car import CORNER_NAMES
from dynoan.model.curve import DIRECTIONS
from dynoan.units import shown

if TYPE_CHECKING:
    from dynoan.analysis.corner.modes import CarModes, Mode
    from dynoan.analysis.corner.rates import CornerRates
    from dynoan.analysis.corner.ratios import Banded, CornerRatios, DirectionRatios
    from dynoan.cli.ratio import Reckoned


def show(call: Call, found: Reckoned) -> None:
    """Print the tables people read; nothing with --json."""
    if call.json:
        return
    _show_rates(call, found)
    if found.ratios:
        _show_ratios(call, found)
        _show_balance(call, found)
    if found.modes is not None:
        _show_modes(call, found.modes)
    if call.verbose:
        _show_more(call, found)


def _show_rates(call: Call, found: Reckoned) -> None:
    from dynoan.show.text.tables import table

    stiff, mass, length, damping = (shown(k, call.shown_units) for k in ("stiffness", "mass", "length", "damping"))
    columns = ["corner", f"wheel rate {stiff.unit}", f"sprung {mass.unit}", "ride Hz", "with tyre Hz", "hop Hz",
               f"sinks {length.unit}", f"critical at wheel {damping.unit}", "at shock", "on it"]  # fmt: skip
    rows = [
        [CORNER_NAMES[name], stiff.text(r.wheel_rate, unit=False), mass.text(r.sprung, unit=False),
         f"{r.frequency:.2f}", _or_dash(r.tyre_frequency, ".2f"),
         _or_dash(r.hop_frequency, ".1f"), length.text(r.deflection, unit=False),
         damping.text(r.critical_wheel, unit=False), damping.text(r.critical_shock, unit=False),
         found.curves[name].what if name in found.curves else "–"]
        for name, r in found.rates.items()
    ]  # fmt: skip
    table(
        columns, rows, title=f"{found.car.name}: the corners (sinks: under its own weight, at the wheel, linear spring)"
    )


def _show_ratios(call: Call, found: Reckoned) -> None:
    from dynoan.show.text.tables import table

    first = next(iter(found.ratios.values()))
    velocity, length = shown("velocity", call.shown_units), shown("length", call.shown_units)
    motion = first.motion
    columns = ["corner", "direction", "low", "high", "tangent low", "tangent high", "body swing", "hop swing", "random"]
    rows = []
    for name, corner in found.ratios.items():
        for direction in DIRECTIONS:
            side = corner.side(direction)
            secants = [_limits(side.low), _limits(side.high), f"{side.tangent_low:.2f}", f"{side.tangent_high:.2f}"]
            rows.append([CORNER_NAMES[name], direction, *secants, *map(_limits, (side.body, side.hop, side.random))])
        rows.append([CORNER_NAMES[name], "mean of low and high", f"{corner.mean:.2f}", "", "", "", "", "", ""])
    call.say()
    table(columns, rows, title="Damping ratios (95 % limits)")
    speeds = sorted({(c.low_velocity, c.high_velocity) for c in found.ratios.values()})
    pairs = " or ".join(f"{velocity.text(a)} and {velocity.text(b)}" for a, b in speeds)
    sigma = ", ".join(sorted({velocity.text(c.motion.sigma) for c in found.ratios.values()}))
    call.say(
        f"low, high: force over velocity (secant) at {pairs} at the shock; tangent: the slope there.\n"
        f"body swing: equal energy in a swing of ±{length.text(motion.body_amplitude)} at the wheel at ride frequency; "
        f"hop swing: ±{length.text(motion.hop_amplitude)} at hop frequency,\n"
        f"over the hop's own critical damping; random: equal power in random motion of {sigma} rms at the shock."
    )


def _show_balance(call: Call, found: Reckoned) -> None:
    from dynoan.analysis.corner.balance import balance
    from dynoan.show.text.tables import table

    b = balance(found.ratios)
    rows = [
        ["front : rear", d, *(_or_dash(b.front_rear.get((d, at)), ".2f") for at in ("low", "high"))]
        for d in DIRECTIONS if b.front_rear
    ]  # fmt: skip
    for axle in dict.fromkeys(key[0] for key in b.left_right):
        rows += [
            [f"left : right, {axle}", d, *(f"{b.left_right[axle, d, at]:.2f}" for at in ("low", "high"))]
            for d in DIRECTIONS
        ]
    rows += [
        ["rebound : compression", CORNER_NAMES[n], *(f"{b.rebound_compression[n, at]:.2f}" for at in ("low", "high"))]
        for n in found.ratios
    ]
    call.say()
    table(["balance", "of", "low", "high"], rows)


def _show_modes(call: Call, modes: CarModes) -> None:
    from dynoan.show.text.tables import table

    groups = (("half", modes.half), ("full", modes.full))
    rows = [[f"{kind} car", name, f"{modes.simple[name]:.2f}", f"{mode.frequency:.2f}",
             f"{100 * (mode.frequency / modes.simple[name] - 1):+.1f} %", f"{mode.ratio:.2f}"]
            for kind, group in groups for name, mode in group.items()]  # fmt: skip
    call.say()
    table(["model", "mode", "simple Hz", "coupled Hz", "difference", "ratio"], rows,
          title="Natural frequencies of the linearised car (dampers as in the body and the hop swing)")  # fmt: skip
    call.say(why_different(modes, call))
    for text in modes.estimated:
        call.say(f"Note: {text}; give it in the car file for a better figure.")


def why_different(modes: CarModes, call: Call) -> str:
    """Return why the coupled frequencies differ from the simple ones, in words."""
    length = shown("length", call.shown_units)
    way = "ahead of" if modes.spring_centre > 0 else "behind"
    return (
        "Why they differ: the simple formulas move one thing at a time on spring and tyre in series. In the car the\n"
        f"wheels move along, the springs' centre lies {length.text(abs(modes.spring_centre))} {way} the centre of "
        "gravity, so that heave and pitch mix,\nand the dampers tie wheel and body together. So the ratio of a mode is "
        "not a corner's ratio either.\nHop: the wheels of an axle together; tramp: opposed. "
        "Anti-roll bars are left out: real roll is faster."
    )


def _show_more(call: Call, found: Reckoned) -> None:
    from dynoan.show.text.tables import table

    force = shown("force", call.shown_units)
    rows = [
        [CORNER_NAMES[n], f"{c.coupled[0]:.2f}" if c.coupled else "–", f"{c.coupled[1]:.2f}" if c.coupled else "–",
         f"{100 * c.overshoot:.0f} %", _or_dash(c.friction, ".3f"), force.text(c.mean_force),
         _or_dash(c.rates.comfort, ".2f"), _or_dash(c.rates.grip, ".2f")]
        for n, c in found.ratios.items()
    ]  # fmt: skip
    call.say()
    table(["corner", "quarter car body ratio", "hop ratio", "goes past rest by", "friction adds",
           "mean force in body swing", "smoothest ride at", "steadiest tyre load at"], rows)  # fmt: skip
    call.say("Smoothest ride, steadiest tyre load: the ratios that a linear quarter car on a random road would want.")


def _limits(banded: Banded | None) -> str:
    if banded is None:
        return "–"
    mark = " beyond data" if banded.extrapolated else ""
    return f"{banded.value:.2f} ({banded.low:.2f}–{banded.high:.2f}){mark}"


def _or_dash(value: float | None, form: str) -> str:
    return "–" if value is None else format(value, form)


def ratio_json(found: Reckoned) -> dict[str, Any]:
    """Return the result object of `ratio`."""
    from dynoan.analysis.corner.balance import balance

    b = balance(found.ratios)
    return {
        "car": found.car.name,
        "corners": {name: _corner_json(rates, found.ratios.get(name), found) for name, rates in found.rates.items()},
        "balance": {
            "front_rear": _nested(b.front_rear),
            "left_right": {
                axle: _nested({k[1:]: v for k, v in b.left_right.items() if k[0] == axle}) for axle in ("front", "rear")
            },
            "rebound_compression": _nested(b.rebound_compression),
        },
        "modes": None if found.modes is None else _modes_json(found.modes),
    }


def _nested(flat: Any) -> dict[str, dict[str, float]]:
    out: dict[str, dict[str, float]] = {}
    for (outer, inner), value in flat.items():
        out.setdefault(outer, {})[inner] = value
    return out


def _corner_json(rates: CornerRates, corner: CornerRatios | None, found: Reckoned) -> dict[str, Any]:
    out: dict[str, Any] = {
        "wheel_rate_n_m": rates.wheel_rate,
        "ride_rate_n_m": rates.ride_rate,
        "sprung_mass_kg": rates.sprung,
        "ride_frequency_hz": rates.frequency,
        "ride_frequency_with_tyre_hz": rates.tyre_frequency,
        "hop_frequency_hz": rates.hop_frequency,
        "quarter_car_hz": rates.modes,
        "static_deflection_m": rates.deflection,
        "critical_damping_wheel_n_s_m": rates.critical_wheel,
        "critical_damping_shock_n_s_m": rates.critical_shock,
        "smoothest_ride_ratio": rates.comfort,
        "steadiest_load_ratio": rates.grip,
        "ratio": None,
    }
    if corner is None:
        return out
    curve = found.curves[corner.corner.name]
    sides = {d: corner.side(d) for d in DIRECTIONS}
    return out | {
        "pack": curve.pack,
        "clicks": dict(curve.clicks),
        "standing": curve.standing,
        "velocity_m_s": {"low": corner.low_velocity, "high": corner.high_velocity},
        "ratio": {d: {"low": s.low.value, "high": s.high.value} for d, s in sides.items()} | {"mean": corner.mean},
        "ratio_limits": {d: {at: _pair(getattr(s, at)) for at in ("low", "high")} for d, s in sides.items()},
        "tangent": {d: {"low": s.tangent_low, "high": s.tangent_high} for d, s in sides.items()},
        "equivalent": {d: _equivalent_json(s) for d, s in sides.items()},
        "motion": {"body_amplitude_m": corner.motion.body_amplitude, "hop_amplitude_m": corner.motion.hop_amplitude,
                   "sigma_m_s": corner.motion.sigma},
        "quarter_car_ratio": corner.coupled,
        "overshoot": corner.overshoot,
        "friction_adds": corner.friction,
        "mean_force_n": corner.mean_force,
    }  # fmt: skip


def _pair(banded: Banded | None) -> dict[str, float | bool] | None:
    if banded is None:
        return None
    return {"low": banded.low, "high": banded.high, "extrapolated": bool(banded.extrapolated)}


def _equivalent_json(side: DirectionRatios) -> dict[str, Any]:
    named = {"body": side.body, "hop": side.hop, "random": side.random}
    return {n: None if b is None else {"value": b.value, **(_pair(b) or {})} for n, b in named.items()}


def _modes_json(modes: CarModes) -> dict[str, Any]:
    def group(found: Any) -> dict[str, Any]:
        return {n: _mode_json(m, modes.simple[n]) for n, m in found.items()}

    return {"half": group(modes.half), "full": group(modes.full), "spring_centre_ahead_m": modes.spring_centre,
            "estimated": list(modes.estimated)}  # fmt: skip


def _mode_json(mode: Mode, simple: float) -> dict[str, float]:
    return {"frequency_hz": mode.frequency, "simple_hz": simple, "ratio": mode.ratio}
