"""What tested curves are taken for: speeds, least errors, friction, dates, temperatures (data, friction, states)."""

from __future__ import annotations

#: how many speeds carry the fit of a direction [1]; judged: enough to keep knees apart, few enough for
#: covariances of all tests at once
FIT_SPEEDS = 10
#: lowest speed that takes part [m/s]; common practice, no source: below it seal friction rules what a rig records
LOWEST_SPEED = 0.02
#: differences are shares of the force, but of no less than this [N]; common practice, no source: nobody feels a newton
LEAST_FORCE = 40.0
#: no curve is believed better than this, a share of force [1]; common practice, no source
LEAST_SHARE = 0.004
#: what all tests of a pack err alike over a curve's least error, both in newtons [1]; common practice, no source: bands
#: are of scatter, and friction taken wrongly for damping does not scatter
SHARED_ERROR = 1.5
#: what all tests of a pack have alike and no law of a valve tells from damping over the tests' own least errors in
#: newtons, variances [1]; judged: what takes friction for damping in one run does so in all, on made packs with one
#: sign in every test of every shock, and by more than curves say of it
ALIKE_SHARE = 1.5
#: and no test's is taken to be less [N]; numerics
LEAST_NEWTONS = 0.1
#: most that may be left of friction in a pack of which no test tells it, 95 % [N]; common practice, no source: seals of
#: rod and piston drag 5 to 45 N
MOST_LEFT_IN = 49.0
#: doubt added where a sweep does not state an adjuster that others do, a share of force [1]; judged: such a test steers
#: little, and still stands where nothing else does
UNSTATED_SHARE = 0.10
#: doubt added below the lowest speed a test holds, and for each e-fold above its highest, a share of force [1]; judged:
#: as much as another knee out there may change
UNMEASURED_SHARE = 0.30
#: what a curve without a band is taken to be off by, a share of force [1]; judged: about a rig's own scale
UNBANDED_SHARE = 0.02
#: no error of friction or zero counts for more than this share of force [1]; judged: beyond it logarithms mislead
MOST_COMMON = 0.7
#: of a curve's own error at least this share is not of friction's split [1]; judged: without any, a curve
#: would count as free of all other errors
REST_OF_SPLIT = 0.3
#: friction of a shock that no test tells, and how far shocks lie from it, standard deviation [N]; common practice, no
#: source: seals of rod and piston drag 5 to 45 N
USUAL_FRICTION, USUAL_FRICTION_SD = 18.0, 9.0
#: how far one run's friction lies from its shock's, standard deviation [N]; common practice, no source
FRICTION_SCATTER = 3.0
#: error of a friction that comes without one, standard deviation [N]; common practice, no source
FRICTION_UNTOLD = 5.0
#: friction that is still in the forces of a pack of which no test tells it, as an error [N]; common practice, no source
FRICTION_LEFT_IN = 15.0
#: of a force with friction in it at least this share is damping [1]; judged: a logarithm needs some, and what friction
#: takes more than this off tells next to nothing
LEAST_LEFT = 0.2

#: runs of a shock within so many days from the first are of one state [days]; common practice, no source: about what
#: lies between two races' rebuilds
SAME_STATE_DAYS = 60
#: a later run of a setting shows that a shock has changed where its force, the mean over these speeds [m/s], differs by
#: at least this share [1] and by so many standard errors [1], runs scattering by so much, standard deviation, a share
#: of force [1]; judged: less is wear that a state may hold, and a rig's scatter is no change
CHANGE_SPEEDS = (0.1, 0.15, 0.25, 0.4, 0.5)
CHANGED_SHARE, CHANGED_SURELY, CHANGE_REPEAT = 0.05, 3.0, 0.013
#: how far a state lies whose date is not known [days]; numerics: further than any two dates
NEVER_DAYS = 10**6
#: oil temperature that tests are brought to, or the nearest one tested [°C]; common practice, no source: a rig's shop
REFERENCE_C = 25.0
#: damping lost a kelvin, and how far shocks differ in it, standard deviation [1/K]; common practice, no source: mostly
#: 1 to 2.5 % per 10 K, and none where sharp orifices rule
THINNING, THINNING_SD = 0.0017, 0.001
#: what is lost beyond that toward rest and how far it may differ, standard deviation [1/K], and the speed over which
#: both fade [m/s]; common practice, no source: leaks and narrow bleeds are ruled by the oil's thickness, 1 to 2.5 % a
#: kelvin, and carry a quarter to half of what flows at 20 to 50 mm/s; none to 8 % per 10 °C at 50 mm/s
SLOW_THINNING, SLOW_THINNING_SD, SLOW_THINNING_SPAN = 0.003, 0.005, 0.06
#: which share of how far shocks differ in it, by variance, tests of a pack have alike whatever their clicks [1];
#: judged: leaks stay as they are, bleeds turn with the screws
THINNED_ALIKE = 0.5
#: speed at which one rate stands for all [m/s], and of the usual doubt there what tests at unlike temperatures must
#: leave less than before they are said to tell it [1]; judged: decides sentences, and whose rate is taken
THINNING_AT, THINNING_TOLD = 0.25, 0.9
