"""What conditioning found, in words: what, how sure, and what it means for the clicks."""

from __future__ import annotations

import math

from dynoan.analysis.conditioning.assumptions import FRICTION_SPREAD, USUAL_FRICTION
from dynoan.analysis.conditioning.found.left_words import left_unexplained
from dynoan.analysis.conditioning.found.trace_model import Told, TraceModel
from dynoan.analysis.conditioning.left_open.low_speed_untold import SLOW, said_of, slow_run
from dynoan.model.sweep import Sweep

#: standard error of gas and zero from which slow cycles are asked for [N]; judged
OPEN_OFFSET = 15.0
#: a fade, or a drift over ten degrees, is said from this share on [1]; common practice, no source
SAID = 0.005
#: gas force that grows by less over travel is none [N/m]: the last digit shown; judged
NO_SLOPE = 10.0
#: gas force that may grow by more is not told: a shock's gas is a spring of 0.2 to 3 N/mm; common practice, no source
#: [N/m]
OPEN_SLOPE = 3000.0
#: gas that is softer in slow motion is said from this share of its rate on [1]; judged
SAID_HEAT = 0.1
#: a give below this is none [m/N]: no rig is stiffer than 100 kN/mm; judged
STIFFEST = 1e-8
#: air in the oil is said from so many standard errors on, since bleeding a shock costs an evening, and where it gives
#: more than the oil [1]; judged
SURE_AIR = 3.0
#: a mass on the cell is said from here on [kg]; judged
SAID_MASS = 0.05
#: friction of a guide under side load is said from this share of the force on [1]; judged
SAID_SIDE = 0.003
#: friction that differs between directions is said from this share of its mean on [1]; judged
SAID_TILT = 0.1
#: standard error of friction, a share of it, from which it may be a valve [1]; judged
OPEN_FRICTION = 0.2
#: standard error of the lag from which it counts as not known [s]; judged
OPEN_LAG = 0.001
#: half width of the lag below which it is said to be none [s]; judged
KNOWN_LAG = 0.0005
#: half width of the give, a share of it, from which its least rate alone is said [1]; judged
KNOWN_GIVE = 0.5
#: what is taken out is named from so many standard errors on, and a drift of the zero from this share of the largest
#: force on [1]; judged
SURE, SAID_DRIFT = 3.0, 0.005

#: of a loose joint, by its travel in mm
PLAY = (
    "a joint has play, about {:.1f} mm: wherever force changes sign it stands at zero while the machine moves "
    "on. What was recorded meanwhile is left out; tighten the joint or change the worn eye before judging low-speed "
    "clicks"
)
#: factor within which the rate of mounts is told [1]; judged on made worlds
ROUGHLY = 2.5
#: of mounts that give, by the ends of their rate in N/mm, to two digits
MOUNT = (
    "the mounts (bushes, joints), or a hose, give like a spring of {:.0f} to {:.0f} N/mm, friction and gas bending "
    "them as damping does: the shock moves less than the machine, taken out; stiffer ones make low-speed clicks easier "
    "to judge"
)
#: of runs of one setting, one of them of one speed alone
TOGETHER = (
    "{} runs of this setting agree in gas force, friction and lag: taken as one record, which tells what one speed "
    "alone does not"
)
DIFFER = (
    "one explanation of gas force, friction and lag does not fit all runs of this setting (a cell zeroed in between, a "
    "warmer shock, another rig): each is taken by itself, and low speed stays open"
)


def findings_of(model: TraceModel, sweep: Sweep, *, one_speed: bool) -> tuple[str, ...]:
    """Return one line for each effect found and taken out, and what stays open."""
    untold = said_of(model.untold, one_speed=one_speed)
    late = _lag(model, displaced="displacement" in sweep.channels)
    lines = [_offset(model, sweep), *_slope(model), *_friction(model), *late, *_rest(model), *left_unexplained(model),
             *untold]  # fmt: skip
    if one_speed:
        cure = "a run" if untold else f"{slow_run(model.untold.slowest)} would tell, and"
        which = " at another speed" if untold else ""
        lines.append("one speed alone: gas over travel, friction and lag look much alike there, which is in the band; "
                     f"{cure}{which} is taken together with this one where the setting is the same")  # fmt: skip
    return tuple(lines)


def _offset(model: TraceModel, sweep: Sweep) -> str:
    doubt = f"{model.offset.text(1.0, 1).replace(' (', ' N (')}"
    if sweep.gas_removed:
        return f"the file says gas force is out; {doubt} left at zero speed, taken as load-cell zero and taken out"
    return (
        f"gas force and load-cell zero together {doubt} at mid-stroke, taken out (which is which cannot be "
        "told); should a click change them, that is the valve"
    )


def _slope(model: TraceModel) -> list[str]:
    if math.isnan(model.slope.value):
        return []
    gas = model.slope
    if not gas.clear:
        most = max(gas.value + 2 * gas.sd, 0.0) * 1e-3
        if most < NO_SLOPE * 1e-3:
            return [f"gas force does not grow with travel (less than {NO_SLOPE * 1e-3:.2f} N/mm): the gas is no spring "
                    "beside yours"]  # fmt: skip
        if most > OPEN_SLOPE * 1e-3:
            return [f"how gas force grows with travel cannot be told from this record (by less than {most:.0f} N/mm): "
                    "a slow run, at 2 to 5 mm/s, or a pause near each end of the stroke would tell"]  # fmt: skip
        likely = max(gas.value, 0.0) * 1e-3
        return [f"gas force over travel: at most {most:.2f} N/mm, most likely {likely:.2f} N/mm; taken out, no click "
                "moves it"]  # fmt: skip
    slow = ""
    if model.heat.clear and model.heat.value > SAID_HEAT * gas.value:
        slow = f" ({model.heat.value * 1e-3:.2f} N/mm less in slow motion, as gas gives its warmth away)"
    return [f"gas force over travel {gas.text(1e-3, 2).replace(' (', ' N/mm (')}, taken out: "
            f"the gas is that much spring beside yours{slow}"]  # fmt: skip


def _friction(model: TraceModel) -> list[str]:
    if math.isnan(model.friction.value):
        return ["one direction alone was recorded: friction cannot be told from gas and zero"]
    f = model.friction
    if not f.clear:
        most = max(f.value + 2 * f.sd, 0.1)
        lines = [f"friction: between 0 and {most:.0f} N, most likely {f.value:.0f} N; taken out"]
    else:
        lines = [
            f"friction {f.value:.1f} N (± {2 * f.sd:.1f}){_law(model)}, taken out; should a click change it, that is "
            "the valve"
        ]
    if f.value > USUAL_FRICTION + 2 * FRICTION_SPREAD and f.sd > OPEN_FRICTION * f.value:
        lines.append("seals rub with 5 to 40 N: the rest of it may be a valve without a bleed that holds from rest; "
                     "its curve then stands so much higher, damping and friction together as they are")  # fmt: skip
    tilt = model.tilt
    if tilt.clear and abs(tilt.value) > max(SAID_TILT * f.value, 2.0):
        way = "compression" if tilt.value > 0 else "rebound"
        lines.append(f"of it {2 * abs(tilt.value):.0f} N (± {4 * tilt.sd:.0f}) more in {way} than the other way, as a "
                     "seal's lip makes it, no click")  # fmt: skip
    return lines


def _law(model: TraceModel) -> str:
    words = ""
    if model.presliding.value > 0.6 * model.friction.value and model.presliding.clear:
        words = ", turning around over some travel after each reversal"
    if model.breakaway.clear and model.breakaway.value > 0.1 * model.friction.value:
        words += f", {model.breakaway.value:.0f} N more at breakaway"
    return words


def _lag(model: TraceModel, *, displaced: bool = True) -> list[str]:
    lines = []
    if model.lag.clear:
        late = "late" if model.lag.value >= 0 else "early"
        size = f"{abs(model.lag.value) * 1e3:.2f} ms {late} (± {2e3 * model.lag.sd:.2f})"
        alike = "" if displaced else ", or the gas is a spring, which looks the same where displacement is not recorded"
        lines.append(f"force channel {size}{alike}, shifted back: left in, it would pass for friction at every click")
    elif model.lag.sd > OPEN_LAG:
        lines.append(f"whether the force channel is late cannot be told (up to {2e3 * model.lag.sd:.1f} ms): it would "
                     "pass for friction, and is in the band at low speed")  # fmt: skip
    elif math.isfinite(model.lag.value) and model.lag.sd > 0:
        told = 2 * model.lag.sd < KNOWN_LAG
        then = "none of it passes for" if told else "no more than that of it passes for"
        lines.append(f"force channel in time with displacement (to {2e3 * model.lag.sd:.2f} ms): {then} friction"
                     f"{'' if told else ', and the band holds that'}")  # fmt: skip
    if model.give.clear and model.give.value > STIFFEST:
        lines.append(f"oil and mounts give like a spring {_rate_of(model.give)}: the valve sees less speed than the "
                     "rig makes; the curve is over the valve's own speed")  # fmt: skip
    if model.air.value > max(SURE_AIR * model.air.sd, model.give.value, 1e-7):
        lines.append(f"softer near zero force, as air in the oil makes it ({1e-3 / model.air.value:.0f} N/mm there): "
                     "bleed the shock before judging low-speed clicks")  # fmt: skip
    return lines


def _rate_of(give: Told) -> str:
    """Return in words the rate of a spring; its least one where the give is not known to a half."""
    share = 2 * give.sd / give.value
    if share > KNOWN_GIVE:
        return f"stiffer than {1e-3 / (give.value + 2 * give.sd):.0f} N/mm"
    return f"of {1e-3 / give.value:.0f} N/mm (± {100 * share:.0f} %)"


def _rest(model: TraceModel) -> list[str]:
    lines = []
    if model.mass.value > max(SURE * model.mass.sd, SAID_MASS):
        lines.append(f"{model.mass.value:.2f} kg (± {2 * model.mass.sd:.2f}) moving on the load cell, taken out: it is "
                     "the rig's, no click moves it")  # fmt: skip
    if model.side.clear and model.side.value > SAID_SIDE:
        lines.append(f"a guide rubs by {model.side.text(100.0, 1)} % of the force at mid-stroke, most as a crank's rod "
                     "leans, taken out: it is the rig's, look after its slide")  # fmt: skip
    if model.fade.clear and abs(model.fade.value) > SAID:
        size = f"{100 * abs(model.fade.value):.1f} % (± {200 * model.fade.sd:.1f})"
        change = f"damping grows by {size} through the record"
        if model.fade.value < 0:
            change = f"low-speed damping falls by {size} through the record, high-speed damping mostly by less"
        lines.append(f"{change}; the curve is that of its middle: compare clicks at one warmth")
    if abs(model.zero_drift.value) > max(SURE * model.zero_drift.sd, SAID_DRIFT * model.peak, 3.0):
        size = f"{model.zero_drift.value:.0f} N (± {2 * model.zero_drift.sd:.0f})"
        lines.append(f"the load cell's zero drifts by {size} through the record, taken out: let it warm up, or "
                     "low-speed clicks hide in it")  # fmt: skip
    return lines


def doubts_of(model: TraceModel, sweep: Sweep) -> tuple[str, ...]:
    """Return warnings about gas and zero, poorly known or pulling, and about drift with temperature."""
    words = []
    if model.offset.sd > OPEN_OFFSET:
        cure = "; add slow cycles to the record" if model.untold.slowest > SLOW else ""
        words.append(f"gas force and zero are known to ± {2 * model.offset.sd:.0f} N only: by as much compression may "
                     f"be too strong and rebound too weak, or the other way{cure}")  # fmt: skip
    if not sweep.gas_removed and model.offset.value < -max(3 * model.offset.sd, 5.0):
        words.append(f"{model.offset.value:.0f} N at zero speed: gas cannot pull, so the load cell has a zero error, "
                     "or the signs are the other way round")  # fmt: skip
    if _drifts(model.drift):
        words.append(f"damping force drifts by {1000 * model.drift.value:+.1f} % per 10 °C within the record; taken to "
                     f"{model.reference_temperature:.0f} °C")  # fmt: skip
    return tuple(words)


def _drifts(drift: Told) -> bool:
    return drift.clear and abs(drift.value) * 10.0 > SAID
