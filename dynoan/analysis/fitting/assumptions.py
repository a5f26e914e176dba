"""What making a curve of points takes for granted: each with its unit, its source, and what it decides.

"Judged" is our judgement, with no source; "common practice, no source" is a fact of the trade.
"""

from __future__ import annotations

# Cells of speed
#: cells of one direction, where its points are more [cells]; judged. It decides what the search may resolve
CELLS = 240
#: how far a curve of a few pieces may be off a real valve: share of the force there, and of the largest force [1];
#: judged. They decide how much more a calm region of a record counts than a noisy one
MISFIT, MISFIT_SPAN = 0.002, 0.0007

# How many knees, and which pieces bend
#: parameters' worth of one knee [1]: its place, its change of slope, and one for having been searched for; judged. It
#: decides how much evidence a knee needs
KNEE_WORTH = 3
#: and of one bend [1]; judged: errors of what was taken out of all points alike look like a bend near zero speed
BEND_WORTH = 2
#: which pieces bend in the models tried, the first piece first, s straight, b bent [1]; common practice, no source: a
#: bleed bends, a port bends the last piece. What is not here cannot be found
PATTERNS = ("s", "b", "ss", "bs", "sb", "bb", "sss", "bss", "ssb", "bsb", "bbb", "ssss", "bsss", "bssb")
#: as how many points' word the scatter of a peak table counts in the choice [points]; judged on tables made by somebody
#: who had not seen the fit: with half as many a curve of six rows misses some by a tenth of the largest force
TRUST = 8
#: up to so many rows of one direction the curve may go straight from row to row [rows]; judged: of more, one law of few
#: values meets all
FEW_ROWS = 5
#: and passes one by that lies within this share of the largest force of the line between its neighbours [1]; judged: a
#: gas force told a little wrong bends a straight valve by as much
ROW_MET = 0.01
#: least share of the speed range a piece must span [1]; judged. It decides how near to each other knees may lie
LEAST_WIDTH = 0.025
#: what no record is better than, a share of its root mean square force [1]; common practice, no source: load cells err
#: by some parts in ten thousand. It decides that what friction told a hundredth of a newton wrong leaves is no knee
LEAST_ERROR = 1e-4
#: candidate knots of the choice [knots]; judged: the winner is polished anyway
CHOICE_CANDIDATES = 64
#: basins settled of each model [sets of knees]; judged
STARTS = 3
#: share of the cost that the chosen knees may be off the optimum by [1]; judged: far below what noise leaves open
CLOSE = 1e-5

# A first piece that is a power law
#: exponents allowed [1]; common practice, no source: an orifice gives 2, a laminar bleed 1, digressive valving less
LEAST_POWER, MOST_POWER = 0.3, 3.5
#: by how much a power law must score better than a parabola [1]: positive evidence (Kass and Raftery, 1995)
POSITIVE = 2.0
#: Gauss-Newton steps at most [steps]; judged
STEPS = 25
#: steps after which a power law that scores worse than the best by more than the second has no hope [steps], [1];
#: judged
ROUGH, HOPE = 1, 60.0

# Curves that fall with speed
#: the data insist on a fall where holding the curve up costs more than this many points' scatter [points], and the
#: fall is above this share of the largest force [1]; judged. They decide whether a curve may fall
INSIST, INSIST_FALL = 40.0, 0.03
#: a fall is told of where it is above this share of the largest force [1]; judged
TOLD_FALL = 0.02

# Bands
#: what a parabola leaves of a smooth piece, root mean square, as a share of how far it bends off its chord [1]: that
#: of turbulent flow, force as the 1.75th power of speed (Blasius, 1913). Straight pieces leave nothing
LEFT_BY_PARABOLA = 0.024
#: by how many times the lack of fit there a knee's place is open [1]; judged on made valves that crack open beside a
#: bleed: with one, intervals held 81 to 87 % of 32 true openings
KNEE_MISFIT = 2.0
#: a table's sum of squares below this is luck, in variances taken for granted [1]; judged. It decides how narrow the
#: band of a few points may be that lie on the curve by chance
LUCK = 1.0
#: scatter of force between repeats on one rig, a share [1], and how many degrees of freedom that is worth beside the
#: repeats at hand [1]; common practice, no source. They decide the band of two or three repeats
REPEAT_SCATTER, REPEATS_KNOWN = 0.01, 4
#: runs further apart than this share of their curve's force are no repeats [1]; judged: fifteen times the scatter of
#: repeats, and more than oil does that is 30 K warmer. It decides whether their mean is told as a curve of neither
UNLIKE_RUNS = 0.15
#: bins over speed in which the lack of fit is judged [bins]; judged
BINS = 24

# Words and tables
#: a piece counts as linear where the exponent of |F| ~ v^m over it is within this of one [1]; common practice, no
#: source
LINEAR = 0.1
#: speeds at which a curve keeps its band [speeds]; judged: between them it is read off straight
GRID = 81
#: what a noise-free table may be off from a curve of a few pieces, share of its largest force [1]; judged. It decides
#: how many knees a click map's curve shows
TABLE_TOLERANCE = 0.005

# What was taken out of a record, or left in
#: growth of friction with the valve's force, standard deviation [1/N]; common practice, no source: seals energised by
#: pressure and side load rub 10 to 30 % per kN more where they do at all. It widens the band at high force
LOADED_FRICTION = 1e-4
#: what a spline leaves of a real valve at the least, standard deviation: share of the force there, and of the largest
#: [1]; judged. They decide how narrow a band may be
LEAST_SHARE, LEAST_SPAN = 0.001, 0.0005
#: share of what a curve of few pieces is off the mean of the draws that its band reaches beyond either [1]; judged. It
#: decides how near to its band's edge a curve may lie
APART = 0.5
#: below about this speed a step by friction that is not known looks like a knee [m/s]; friction of seals has turned
#: around by a third of it, common practice, no source. It decides which knees near zero are believed
START = 0.02
