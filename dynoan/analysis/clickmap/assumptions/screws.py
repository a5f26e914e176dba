"""How adjusters open, and what is odd about some (openings, oddities, returning, backward, crossing)."""

from __future__ import annotations

# How far openings lie from the even way

#: how far openings of an adjuster lie from the ones taken, standard deviations tried, shares of the turn [1], and how
#: common each is [1]; judged: most open nearly as taken, one in twenty is to be free
WARPS = (0.008, 0.025, 0.07, 0.16)
WARPS_COMMON = (0.55, 0.25, 0.14, 0.06)
#: over which share of the turn such errors run on, and which share of their variance is each click's own [1]; judged:
#: a taper errs over a quarter of its way, a detent at its own click
WARP_SPAN, OWN_CLICK = 0.25, 0.25
#: how far a screw stands from the click it is set to, each time anew, standard deviations tried [clicks], and how
#: common each is [1]; common practice, no source: one in twenty has half a click of play
LOOSE = (0.05, 0.5)
LOOSE_COMMON = (0.95, 0.05)
#: powers of the opening that a needle's taper makes of its way, and how common each is beside the others [1];
#: common practice, no source
TAPERS = {0.7: 1.0, 1.0: 4.0, 1.3: 1.5, 1.6: 1.0, 2.0: 0.5}

# Oddities

#: oddities of an adjuster and how common they are [1]; common practice, no source: one in four has some
COMMONNESS = {"dead clicks": 0.10, "stepped": 0.07, "not monotone": 0.04, "saturating": 0.04}
#: in bands oddities count as so many times as common [1]; judged: tests that stand at like places of every step, or on
#: one side of a fall, cannot show it, and a band is to hold on odd packs too; a screw that has said all early is most
#: unlike an even one where no test stands between its ends, which many plans have
ODD_DOUBTED = {"dead clicks": 2.5, "stepped": 2.5, "not monotone": 2.5, "saturating": 4.0}
#: which share of the evidence for one way of opening over another counts [1]; judged: the valve is a little wrong, and
#: what it misses hangs together over speeds and tests more than their covariance says
EVIDENCE_SHARE = 0.5
#: share of the range that does nothing at most: at either of both ends, and at one alone [1]; clicks between steps, and
#: by which one falls back [clicks]; e-folds of an adjuster that has said all after a few clicks [1]; common practice,
#: no source
DEAD_MOST, DEAD_MOST_ALONE = 0.25, 0.45
STEPS = (2, 3, 4)
FALLS_BACK = (2, 3, 4)
SATURATIONS = (3.0, 4.0, 6.0)
#: how common adjusters are that do not return to the same place [1], by how much they stand to either side [clicks]:
#: common practice, no source; from how many tests on that is looked for [1]; judged: of fewer, scatter looks
#: the same
NO_RETURN_COMMON, NO_RETURN_CLICKS, NO_RETURN_FROM = 0.05, 0.5, 8

# Which way it turns, and on which direction it acts

#: how common adjusters are that work the other way than written, a logarithm of odds [1]; common practice, no source:
#: one in fifty. Clearly falling force spares trying it: so many standard deviations [1]
BACKWARD_ODDS = -4.0
CLEARLY_FALLS = 3.0
#: standard errors by which plain least squares must show force to rise before an adjuster is said to work the wrong
#: way [1]; judged: a false word costs more trust than a doubt that is said as one
SURELY_RISES = 2.5
#: how common adjusters are that act on the other direction as well [1]; common practice, no source: a bleed without a
#: check valve is not rare. From which probability on one is looked for with all that is known of openings [1], and from
#: which on the map has it [1]; judged: in the map its doubt is counted, so that half a belief does no harm
CROSSING_COMMON = 0.1
CROSSING_SUSPECTED, CROSSING_BELIEVED = 0.1, 0.3

# What is said of it

#: an oddity this probable is named [1]; judged: a false one costs more trust than a true one that is not named
NAMED = 0.97
#: one less probable than that, yet more than this, is said to be possible, with the run that would show it [1]; judged:
#: a few times what is common
SUSPECTED = 0.35
#: what a later test shows is told of the shock and of a screw, where either is more probable than this [1]; judged:
#: one in five is worth the run that tells
EITHER = 0.2
#: an adjuster's tests leave open how it acts where no test stands in so wide a part of its range [1]; common practice,
#: no source: what has said all early and what opens evenly differ most there
WIDE_GAP = 0.6
#: an adjuster has said nearly all at this share of its effect [1]; common practice, no source
MOSTLY = 0.9
