"""What logged launches tell of the car's own values.

In: logs, a car, a surface. Out: values with limits, which of them the logs can tell, and whether a launch left out
comes out better. Read in this order: logs, answering.
"""

from dynoan.jobs.learn.answering import LearnAnswer, LearnQuestion, answer

__all__ = ["LearnAnswer", "LearnQuestion", "answer"]
