"""Trends over clicks and speed, and what they leave over: the part of a fit that all views of a pack share.

In: `DirectionData`. Out: a `FittedDirection`: a trend with its discrepancy and the sizes of both; the trend that is
monotone between tested clicks. Called by `valve`, `shocks`, `doubts` and `every_click`. Read in this order:
discrepancy, openings, trend, sizes, interpolated.
"""
