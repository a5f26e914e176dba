"""Which velocities the shocks really see.

In: a log of shock travel. Out: shares of time by speed, ends that were hit, doubts about the channels. Read in this
order: asked, channels, sensed, found, doubts, answering.
"""

from dynoan.jobs.travel.answering import TravelAnswer, TravelQuestion, answer
from dynoan.jobs.travel.asked import parts_from

__all__ = ["TravelAnswer", "TravelQuestion", "answer", "parts_from"]
