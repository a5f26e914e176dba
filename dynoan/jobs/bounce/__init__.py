"""What a pushed corner says of itself, beside what the fitted shocks say it should do.

In: a log of pushes and a car. Out: frequency, damping ratio and friction with limits, the same as predicted, and what
would explain a difference. Read in this order: asked, car, explained, answering.
"""

from dynoan.jobs.bounce.answering import BounceAnswer, BounceQuestion, answer

__all__ = ["BounceAnswer", "BounceQuestion", "answer"]
