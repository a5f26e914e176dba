"""What is odd about a pack's tests: an adjuster that does not return or opens oddly, an outlier, another rig.

In: a pack's data and its fit. Out: oddities with their names, and notes in words. Called by `mapping`. Read in this
order: oddities, returning, rigs, outliers, words.
"""
