"""Whether a change helped: runs with setting a and with setting b in an order, while the day drifts.

In go settings, places in the day's order, and results; out comes b minus a with the drift taken out, its limits, a
verdict, and how many more runs would settle it. `jobs/trial/show` asks. Order of reading: `difference` (least squares
under drift), `ranks` (the same question by ranks), `power` (what an order of runs can tell), `judging` (the verdict).
"""
