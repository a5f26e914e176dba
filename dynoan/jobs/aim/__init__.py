"""The clicks of both axles for a limit ("nose slower than 120 mm/s") or a least ("least squat").

In: a car, aims, a surface. Out: the clicks, what they cost in the other figures, and whether the turn is worth it.
Read in this order: asked, search, answering.
"""

from dynoan.jobs.aim.answering import AimAnswer, AimReached, answer

__all__ = ["AimAnswer", "AimReached", "answer"]
