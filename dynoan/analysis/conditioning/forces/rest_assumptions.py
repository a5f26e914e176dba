"""What the force of a shock that stands still assumes: every number with its source and what it decides."""

# Where it stands
#: a shock stands where it is within so many standard deviations of the noise of displacement, or within that share of
#: its travel, of one place [1]; judged: a slow start leaves it later than force leaves the gas
SAME_PLACE, SAME_SHARE = 4.0, 0.001
#: for at least so long [s]; judged: oil and mounts settle within a third of it
SHORTEST = 0.2
#: rests beyond the stroke by no more than this share of it are used [1]; judged: the gas law is held on there
BEYOND = 0.02
#: and of no fewer samples [1]; judged: a median of fewer is noise
FEWEST_SAMPLES = 4
#: the motion before a rest is that over this share of the travel [1]; judged: more than noise, less than a stroke
CAME = 0.03

# What its force is
#: gas and zero to so much that friction holds, anywhere between either way of what is usual [N]; common practice, no
#: source
HELD_FRICTION = 14.0
#: after a run, to so much of the peak force that a cell's hysteresis leaves [1], and to so much of what yields, which
#: may hold it too [1]; common practice, no source
HELD_SHARE, HELD_YIELD = 0.004, 0.3
#: and before the first motion, to so much of what yields [1]; judged: few hold without any leak for as long
HELD_FIRST = 0.01
#: share of its friction that a shock keeps after a stop [1]; judged: between none and all, as mounts give
HELD_SLIDES = 0.5
