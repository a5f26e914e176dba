"""What choosing takes for granted beside the search, with unit, source and what it decides."""

from __future__ import annotations

#: [1] damping ratio to begin with where no tyre rate tells more, the middle of 0.2 to 0.4; common practice, no source
USUAL_RATIO = 0.30
#: [1] compression and rebound at the low velocity over the middle ratio; common practice, no source
COMPRESSION_SHARE, REBOUND_SHARE = 0.75, 1.25
#: [1] ratio at the high velocity over that at the low one: dampers give way at speed; common practice, no source
AT_SPEED = 0.75
#: [1] the most that is proposed, the middle of 0.5 to 0.8 for body control at low speed; common practice, no source
MOST_PROPOSED = 0.65
#: [m/s] speed at which a surface is judged; judged: about a club stage's mean. It decides how rough a surface counts,
#: as the root of it
JUDGED_AT = 15.0
#: [1] standard deviations of the tyre's load that make it leave the ground now and then; judged: with 3 of a normal
#: load it does in 1 of 740 moments
LIFTS = 3.0
#: [1] steadiness that may be spent on holding the body where the road moves no tyre, as a share of the load at rest;
#: judged: a hundredth is felt by nobody. It decides how far a proposal for a smooth surface goes beyond the steadiest
SPENT = 0.01
#: [1] what is published of damping ratios, to hold a proposal against; it decides nothing. The greatest on vehicles
#: (Barton and Fieldhouse, Automotive Chassis Engineering, 2018), p. 322; what racing cars are best with (Chassis
#: Newsletter, January 2009), which adds that over 1 is seen at low speed on fast cars
PUBLISHED_MOST, PUBLISHED_RACING = 0.5, (0.6, 0.7)
#: [1] ratios for comfort, for sport on roads, for body control in racing at low speed; common practice, no source
PRACTISED = ((0.2, 0.3), (0.3, 0.45), (0.5, 0.8))

#: [1] outside these a typed number is no damping ratio but a percentage or a slip of the finger; common practice, no
#: source
LEAST_RATIO, MOST_RATIO = 0.02, 3.0
#: [1] outside these a proportion between directions or axles is a slip of the finger; common practice, no source
LEAST_PROPORTION, MOST_PROPORTION = 0.1, 10.0
#: [1] ratios of left and right closer than this share are one line in a picture; judged: about a line's width there
SEEN_APART = 0.05
