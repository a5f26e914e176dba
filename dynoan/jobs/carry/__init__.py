"""The clicks that keep what the wheel feels after a change of the car.

In: a car before and after. Out: clicks of each corner, and what they cannot keep. Read in this order: found, answering.
"""

from dynoan.jobs.carry.answering import CarryAnswer, CarryQuestion, answer

__all__ = ["CarryAnswer", "CarryQuestion", "answer"]
