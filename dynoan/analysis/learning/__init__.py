"""What logged launches tell of a car's uncertain values.

In: logged launches (shock travel, acceleration or speed), a car with what is uncertain of it, its curves. Out: each
value before and after with limits, which of them the logs can tell, and how a launch that was left out is predicted.
Called by `jobs.learn`. Read in this order: assumptions, values, logged, drives, predicting, roughness, problem,
starting, fitting, following, judging.
"""
