"""How each number of a report was got, in words. The only place that holds these texts."""

from __future__ import annotations

HOW: tuple[tuple[str, str], ...] = (
    ("Signs", "Velocity and force are positive in compression. In tables rebound stands as a positive magnitude, on "
     "axes it is negative."),
    ("lsc, hsc, lsr, hsr", "The screws: low- and high-speed compression, low- and high-speed rebound; c, r and cr "
     "where one screw does more. Compression: the shock gets shorter; rebound: it gets longer. Clicks are counted as "
     "each shock's file says."),
    ("Knee", "A speed at which the slope of a curve changes, such as where a valve blows off (c: in compression, r: in "
     "rebound). RMS: by how much the points lie off the curve (root mean square)."),
    ("Cross-talk", "What a screw changes in the direction that is not its own. A dead click changes nothing."),
    ("Damping force", "What is left of the measured force when gas force, seal friction and load-cell zero are taken "
     "out and the lag of oil and mounts is put right, each as far as the record can tell."),
    ("Curve", "Force against velocity, in pieces that meet at knees. It has as many knees and bends as the data carry "
     "(Schwarz' criterion)."),
    ("Band", "The 95 % interval: what noise, friction, gas, lag and the cell's zero leave open in the record, and the "
     "scatter between runs that are taken together. Beyond the tested speeds it widens with all that the curve gains."),
    ("Click map", "One model of a pack for all clicks, fitted to all its tests at once. How far a test guessed from "
     "the others is off (the left-out error): how far it lies from what they alone predict for it."),
    ("Tested?", "Tested: this setting was on the dyno. Between: every adjuster lies between tested clicks. Outside: "
     "some adjuster lies beyond them, and the number is a guess."),
    ("Force per click", "Force lost as an adjuster opens by one click, mean over its whole turn, the others where most "
     "tests sat."),
    ("Pair", "An equivalence test: matched where the whole interval of the difference lies inside the tolerance in "
     "every band, not matched where some interval lies wholly outside, else it cannot be told from these runs."),
    ("Wheel rate", "Spring rate times the square of the spring's motion ratio (spring travel per wheel travel); a "
     "stated gas rate of the shock is added the same way with the shock's ratio."),
    ("Critical damping", "2·√(wheel rate × sprung mass), at the wheel; sprung mass is the corner mass less the "
     "unsprung mass."),
    ("Damping ratio", "Force over velocity at the shock, times the square of the shock's motion ratio, over critical "
     "damping. Low and high velocity are at the shock."),
    ("Misses by", "How far the ratios miss their targets, over all targets of all corners of the place (the root of "
     "the mean square of ratio over target, less 1)."),
)  # fmt: skip
