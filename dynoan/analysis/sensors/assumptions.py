"""What telling a sensor's faults takes for granted, with unit, source, and what it decides."""

from __future__ import annotations

#: decimals to which two samples of one level agree, of the channel's whole span [decimals]; numerics
SAME = 9
#: samples in a row at an extreme that may be a sensor at its end, where it was there more than once, and where it was
#: there once [samples, samples]; judged: a peak that is round has two or three within the noise. They decide what
#: counts as cut flat
FLAT, FLAT_ALONE = 4, 8
#: width of that level, in standard deviations of the noise [1]; judged: two dozen samples spread over five
LEVEL = 6.0
#: a channel runs into its end at so many of these widths a sample and more [1]; judged: a round peak that has four
#: samples within one width changes by 2.7 widths a sample beside them at most. It tells a cut peak from a held one
SHARP = 3.0
#: ends of such levels that must be so sharp, and entries among them [1, 1]; judged: a hand that lets go leaves its
#: level sharply, yet comes to it slowly
EDGES, ENTRIES = 2, 1
#: quietest share of stretches of so many samples in which noise is looked for [1, samples]; judged: where the car
#: stands there is no motion to be taken for noise
QUIET, NOISE_SAMPLES = 0.2, 40
#: a drop-out jumps to its level and back by at least this share of the channel's span, and so many times what nine
#: steps of ten stay below [1, 1]; judged: no wheel moves so within a sample. It decides which samples are left out
JUMP, STEPS = 0.25, 4.0
#: it comes back to within this share of the jump of where it was [1]; judged: what jumps for good is no drop-out
BACK = 0.5
#: samples that a drop-out lasts at most [samples]; judged: what lasts longer is a sensor's end, or a broken wire
LONGEST = 25
#: drop-outs to one extreme that must be there, where it is not zero [1]; judged: one alone may be a kerb
REPEATED = 3
