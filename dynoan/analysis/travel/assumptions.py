"""What reading logged travel takes for granted: every number a referee would question, and what it decides."""

from __future__ import annotations

# Velocity from travel: the filter
#: order of the polynomial; third keeps the peaks of a swing where second flattens them [1]; common practice, no source
ORDER = 3
#: windows to choose from [samples]; numerics: in steps that differ little in noise
WINDOWS = (5, 7, 9, 11, 13, 15, 17, 21, 25, 31, 37, 45, 55, 67, 81, 101)
#: no window spans more: a wheel hops in about this time [s]; common practice, no source. It decides where a quiet
#: record stops being smoothed.
WIDEST = 0.06
#: how many times the narrower window's noise a difference between two windows may be; above 1, for the noise is
#: estimated [1]; judged. It decides how soon a window is too wide.
EXPLAINED = 1.15

# The record
#: rate below which peaks of fast wheel motion are lost [Hz]; common practice, no source. It decides a warning.
SLOW_LOGGER = 200.0
#: a pause between samples longer than so many steps starts a new stretch [1]; judged: dropped samples are no pause
GAP = 3.5
#: samples a stretch must have to count [samples]; judged
LEAST = 24
#: share of samples that are levels of their own, below which the logger is taken to write whole steps [1]; judged
STEPPED = 0.5
#: decimals to which equal samples of a logger that writes whole steps agree [decimals of a metre]; numerics
SAME = 9

# The noise
#: it is looked for in stretches of so many samples, and so quiet a share of them tells it [1, 1]; judged: where the car
#: stands there is no motion to be taken for noise
NOISE_SAMPLES, QUIET_SHARE = 40, 0.2
#: of normal noise throughout, such a share shows this much of it [1]; measured on 6,000 made stretches
QUIET_SHOWS = 0.804

# What no shock does
#: quicker than this, or further, a shock does not move [m/s, m]; common practice, no source. They decide a warning
FASTEST_SHOCK, LONGEST_STROKE = 8.0, 0.4
#: a log in which a launch moves it less than this has a wrong scale, too [m]; common practice, no source
LEAST_STROKE = 4e-3
#: a speed to ask the dyno for is rounded up to this [m/s]; judged
ASK_STEP = 0.05

# Standing
#: times the noise of the velocity below which a shock counts as standing [1]; common practice, no source
STILL = 3.0
#: and never less than this [m/s]; judged. Both decide what shares of "the time it moves" are shares of.
LEAST_STILL = 2e-3

# The ends of the stroke, and the histogram
#: this near to an end of the stroke counts as there [m]; judged. It decides how often a shock bottoms and tops out.
NEAR = 1e-3
#: width of a bin of the histogram [m/s]; judged: decides a picture only
BIN = 0.01
#: share of the moving time that is slower than "most" velocities [1]; common practice, no source
MOST_OF_THE_TIME = 0.95

# The launch
#: how long after the start counts as the launch [s]; common practice, no source
LAUNCH = 3.0
#: what of the time before the start belongs to it [s]; judged
BEFORE = 0.1
#: a car faster than this has left the line [m/s]; judged
ROLLING = 0.5
#: a shock that goes no further than this over this time stands [m, s]; judged. What is quicker than the last is taken
#: for trembling and evened out first [s]
SETTLED, SETTLED_OVER, LEVEL_OVER = 1.5e-3, 0.3, 0.2
#: how long it must stand to count [s]; judged
STOOD = 0.5
#: the launch is the first time that moves the shocks, or gets as fast, within this share of the greatest [1]; judged
NEARLY = 0.6
#: so soon after standing the shocks are to have moved [s]; judged: load shifts within the drive's rise and a body swing
SHIFT_WITHIN = 1.2
#: it begins where a shock is so far from its place, or so many times its trembling [m, 1]; judged
AWAY, TREMBLES = 1e-3, 4.0
#: a shock that stands has crept where it is so far from where it was, and drifted where it is so far off at the end; a
#: launch moves it by so much at least [m, m, m]; judged: a driver getting in moves a shock by one or two millimetres,
#: ground that is not level by some. They decide warnings
CREPT, DRIFTED, MOVED = 6e-4, 3e-3, 1e-3
#: samples before the start that a zero needs; with fewer the whole log's median is taken [samples]; judged
ZERO_SAMPLES = 10
