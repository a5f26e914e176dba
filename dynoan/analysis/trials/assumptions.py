"""What judging a trial takes for granted, with unit, source, and what it decides."""

from __future__ import annotations

#: share of days without any difference on which one is found [1]; judged. Somewhat under the 5 % that is promised, so
#: that results rounded to hundredths and a drift that is not quite straight stay within. It sets limits and verdict
LEVEL = 0.04
#: share of days on which a difference that is worth knowing is to be found [1]: common practice, no source. It decides
#: how many runs are asked for
POWER = 0.80
#: most degrees of freedom that earlier days of the same measure lend to a day's scatter [1]; judged: drivers and tracks
#: scatter differently from day to day. It decides how far few runs may rest on earlier ones
LENT = 6.0
#: fewest degrees of freedom of its own that a day is asked to have where nothing is known of scatter [1]; judged: with
#: fewer the quantile of Student's t is above 3.5. It decides how many runs are asked for
FEWEST = 3
#: most further runs that are reckoned with [1]; judged: a day holds no more. Beyond it "too many" is the answer
MOST_RUNS = 60
#: of a day's order, the degree of the drift that is always taken out, and that it is tried with [1]; judged: a day
#: warms up or dries steadily, to first order. It decides what counts as drift
STRAIGHT, BENT = 1, 2
#: how far the middle of a day lies from the straight line through its ends, standard deviation, in scatters of one run
#: [1]; judged. It widens limits where an order of runs cannot tell a bent day from a difference (abba), and no others
BEND = 1.0
#: most decimals in which results are looked at for being rounded [1]; judged: clocks show milliseconds at the best. A
#: run scatters at least as rounding does
ROUNDED_TO = 4
#: degrees of freedom that must be left before a bend of the drift is looked for [1]; judged
LEFT_FOR_BEND = 3
#: how many a scatter that is hardly known may be, alike in chance, over which power is averaged [1] (numerics)
SCATTERS = 16
#: a difference that is less than this share of its limits' width is none but rounding [1] (numerics)
ROUNDING = 1e-6
