"""Points of each direction to a curve with its knees, pieces and bands.

In: sweeps of one setting. Out: a `Curve`. Called by the workbench and by `dynoan.fit`.
Read in this order: assumptions, cells, shapes, power, monotone, choice, bands, side, fit.
"""
