"""What conditioning found, in words."""

from __future__ import annotations

import math

from dynoan.analysis.conditioning.assumptions import POLYTROPIC
from dynoan.analysis.conditioning.trace_model import TraceModel
from dynoan.model.sweep import Sweep

_OPEN_OFFSET = 15.0


def model_words(model: TraceModel, gas_removed: bool | None, said: tuple[str, ...]) -> tuple[str, ...]:
    """Return one line for each effect found and taken out, and what stays open."""
    lines = [_offset(model, gas_removed)]
    if model.terms.slope:
        lines.append(_slope(model))
    if model.terms.friction:
        doubt = math.hypot(model.sd["friction"], model.bias)
        lines.append(f"friction {model.friction:.1f} N ({_within(2 * doubt, 1)}), turning around over "
                     f"{model.turning * 1e3:g} mm/s, taken out")  # fmt: skip
    if model.terms.delay:
        late = "late" if model.delay >= 0 else "early"
        lines.append(
            f"force channel {abs(model.delay) * 1e3:.2f} ms {late} (± {2e3 * model.sd['delay']:.2f}), shifted back"
        )
    if model.terms.compliance:
        k = 1 / model.compliance
        lines.append(f"oil and mounts in series {k * 1e-3:.0f} N/mm ({_within(200 * model.sd['compliance'] * k, 0)} %"
                     "): velocity is that of the valve")  # fmt: skip
    elif model.terms.delay:
        lines.append("no compliance in series found beyond the delay")
    return (*lines, *said)


def _within(half: float, digits: int) -> str:
    return f"± {half:.{digits}f}" if math.isfinite(half) else "how well is not known"


def _offset(model: TraceModel, gas_removed: bool | None) -> str:
    doubt = f"{model.offset:.1f} N ({_within(2 * model.sd['offset'], 1)})"
    if gas_removed:
        return f"the file says gas force is out; {doubt} left at zero speed, taken as load-cell zero and taken out"
    return f"gas force and load-cell zero together {doubt} at mid-stroke, taken out; one cannot be told from the other"


def _slope(model: TraceModel) -> str:
    text = f"gas force over travel {model.slope * 1e-3:.2f} N/mm ({_within(2e-3 * model.sd['slope'], 2)})"
    if not model.terms.gas_curvature:
        return f"{text}, straight: no curvature shows"
    if not math.isfinite(model.column):
        return f"{text}, with curvature"
    return f"{text}, rising as a {model.column * 1e3:.0f} mm column of gas does (polytropic, exponent {POLYTROPIC})"


def offset_words(model: TraceModel, sweep: Sweep) -> tuple[str, ...]:
    """Return warnings about gas and zero: poorly known, or pulling."""
    words = []
    sd = model.sd.get("offset", math.nan)
    if sd > _OPEN_OFFSET:
        known = f"known to ± {2 * sd:.0f} N only" if math.isfinite(sd) else "hardly known"
        words.append(f"gas force and zero are {known}: add slow cycles to the record")
    if not sweep.gas_removed and model.offset < -max(3 * sd, 5.0):
        words.append(f"{model.offset:.0f} N at zero speed: gas cannot pull, so the load cell has a zero error, or the "
                     "signs are the other way round")  # fmt: skip
    return tuple(words)


def drift_words(model: TraceModel) -> tuple[str, ...]:
    """Return a warning where the force drifts with temperature within the record."""
    if not model.terms.drift:
        return ()
    share = model.drift * 1000
    return (f"damping force drifts by {share:+.1f} % per 10 °C within the record; taken to "
            f"{model.reference_temperature:.0f} °C",)  # fmt: skip
