"""What logged travel tells: velocities, time about each knee, energy, the ends of the stroke.

In: travel against time. Out: histograms and shares. Called by the jobs. Read in this order:
assumptions, velocity, summary, start.
"""
