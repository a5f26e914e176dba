"""What reading logged travel takes for granted: every number a referee would question, and what it decides."""

from __future__ import annotations

# Velocity from travel: the filter
#: order of the polynomial; third keeps the peaks of a swing where second flattens them; common practice, no source
ORDER = 3
#: windows to choose from, in samples
WINDOWS = (5, 7, 9, 11, 13, 15, 17, 21, 25, 31, 37, 45, 55, 67, 81, 101)
#: no window spans more: a wheel hops in about this time [s]; common practice, no source. It decides where a quiet
#: record stops being smoothed.
WIDEST = 0.06
#: how many times the narrower window's noise a difference between two windows may be; above 1, for the noise is
#: estimated; no source. It decides how soon a window is too wide.
EXPLAINED = 1.15

# The record
#: rate below which peaks of fast wheel motion are lost [Hz]; common practice, no source. It decides a warning.
SLOW_LOGGER = 200.0
#: a pause between samples longer than so many steps starts a new stretch; no source
GAP = 3.5
#: samples a stretch must have to count; no source
LEAST = 24
#: share of samples that are levels of their own, below which the logger is taken to write whole steps; no source
STEPPED = 0.5
#: decimals to which equal samples of a logger that writes whole steps agree [m]
SAME = 9

# Standing
#: times the noise of the velocity below which a shock counts as standing; common practice, no source
STILL = 3.0
#: and never less than this [m/s]; no source. Both decide what shares of "the time it moves" are shares of.
LEAST_STILL = 2e-3

# The ends of the stroke, and the histogram
#: this near to an end of the stroke counts as there [m]; no source. It decides how often a shock bottoms and tops out.
NEAR = 1e-3
#: width of a bin of the histogram [m/s]
BIN = 0.01
#: share of the moving time that is slower than "most" velocities
MOST_OF_THE_TIME = 0.95

# The launch
#: how long after the start counts as the launch [s]; common practice, no source
LAUNCH = 3.0
#: what of the time before the start belongs to it [s]
BEFORE = 0.1
#: a car faster than this has left the line [m/s]; no source
ROLLING = 0.5
#: rms shock velocity above which something is going on [m/s]; no source
STIRRING = 0.02
#: and so many times the noise of the velocity, where that is more; no source
STIRRING_OVER_NOISE = 5.0
#: over which time that rms is taken [s], and over so many samples at least
STIRRING_TIME, STIRRING_SAMPLES = 0.1, 3
#: a log that stirs earlier than this did not begin at rest [s]; no source
REST_FIRST = 0.3
#: samples before the start that a zero needs; with fewer the whole log's median is taken
ZERO_SAMPLES = 10
