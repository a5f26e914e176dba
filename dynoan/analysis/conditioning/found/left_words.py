"""What a curve leaves unexplained, in words: how much and where, why where there is evidence, and what to do."""

from __future__ import annotations

import math

from dynoan.analysis.conditioning.found.trace_model import TraceModel
from dynoan.analysis.conditioning.left_open.causes import LeftCause

#: a force channel later than this is a slow one, where force is left unexplained [s]; judged
SLOW_CHANNEL = 0.0015
#: force left unexplained is said from this share of the largest force on [1]; judged
LEFT_OVER = 0.01
#: and at one place of the cycle from this share on [1]; judged
MOST_LEFT = 0.04


def left_unexplained(model: TraceModel) -> list[str]:
    """Return where most is left unexplained, why, and what it means for the clicks; nothing where it is little."""
    most = model.most
    if most is None or (max(model.left) < LEFT_OVER * model.peak and abs(most.force) < MOST_LEFT * model.peak):
        return []
    what = (f"up to {abs(most.force):.0f} N are left unexplained {most.at}, at the same place of every cycle (runs to "
            f"{most.top * 1e3:.0f} mm/s)")  # fmt: skip
    why = _why(most.cause, model)
    if why:
        return [f"{what}: {why}"]
    if most.broad:
        return [f"{what} and over {100 * most.share:.0f} % of it, as a filter, a rig that shakes or damping that "
                "changes with travel leave them: in the band; differences between settings on one rig are known better "
                "than forces"]  # fmt: skip
    return [f"{what}; what leaves them is not told: in the band; look at the loop there, and whether it changes with "
            "the clicks"]  # fmt: skip


def _why(cause: LeftCause | None, model: TraceModel) -> str:
    """Return in words why force is left unexplained, where there is evidence for it, and what it means for clicks."""
    if cause is not None and cause.kind == "travel":
        return _by_travel(cause)
    if model.lag.clear and model.lag.value > SLOW_CHANNEL:
        return (f"the force channel is slow ({model.lag.value * 1e3:.1f} ms late, which is out, yet it rounds off what "
                "is fast as well): in the band; a faster filter in the logger would tell high-speed clicks "
                "better")  # fmt: skip
    if cause is not None and cause.kind == "cavitation":
        return (f"from {cause.speed * 1e3:.0f} mm/s on, and not in slower runs, compression tops out or rebound comes "
                "late after it, as oil does that pulls bubbles: check gas pressure and fill, and judge compression "
                "clicks by slower runs until then")  # fmt: skip
    if cause is not None:
        return (f"force changes by {100 * cause.share:.0f} % of its range from one sample to the next there, too steep "
                f"for the sample rate: in the band; {_round(cause.rate)} Hz or more would follow it")  # fmt: skip
    return ""


def _by_travel(cause: LeftCause) -> str:
    way, end = ("in" if cause.way > 0 else "out"), ("compressed" if cause.end > 0 else "extended")
    share = f"{100 * abs(cause.share):.0f} % of the range"
    if cause.share > 0:
        return (f"on the way {way} force is higher near the {end} end, by {share}, at the same speed, in slow runs and "
                "fast: a bump stop or a bypass. The curve is a mean over the stroke; compare clicks over one stroke, "
                "or run a shorter one about mid-stroke to see the valve alone")  # fmt: skip
    if cause.way * cause.end < 0:
        return (f"on the way {way} force comes late after the {end} end, {share} less, in slow runs and fast: travel "
                "is lost at the turn, as a foot valve, a check that seats late or air make it; bleed the shock before "
                "judging low-speed clicks")  # fmt: skip
    return (f"on the way {way} force is lower near the {end} end, by {share}, at the same speed, in slow runs and "
            "fast: a bypass. The curve is a mean over the stroke; compare clicks over one stroke")  # fmt: skip


def _round(rate: float) -> str:
    """Return a rate in words, up to the next of two figures. [Hz]"""
    step = 10.0 ** (math.floor(math.log10(rate)) - 1)
    return f"{math.ceil(rate / step) * step:.0f}"
