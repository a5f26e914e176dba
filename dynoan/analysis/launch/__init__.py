"""The car leaving the line: a planar half-car on its curves, compiled, one run or thousands.

In: a car, curves, a drive and a road. Out: traces and figures. Called by the jobs.
Read in this order: assumptions, load_transfer, model, from_car, drive, scene, hinges, layout, kernel, run, trace,
metrics, compare, clicked, search.
"""
