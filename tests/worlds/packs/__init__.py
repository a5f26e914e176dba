"""Made valve packs: adjusters, packs, shocks and test programmes with a known truth.

For trying whatever says what a pack does at clicks that were never tested, which pack an unlabelled one is, whether
two shocks are a pair, whether one has changed, and which tests to pay for next. In goes the name of a row and a seed,
out comes a `PackWorld`: a `Library` as a team would hold it, and the truth beside it. Nothing in here knows how any of
these questions is answered, nor imports anything that does. Order of reading: adjusters, packs, units (the shocks);
tests_of (the dyno shop); made, rows, score.
"""
