"""What a record leaves open, and what a fit of it leaves over.

In: rows, and residuals or draws of a fit. Out: the draws that bands are made of, what is untold of low speed, the error
of the model, where it stands in the cycle and why. Called by `separating` and `found`; pictures show the structure.
Read in this order: open_end, low_speed_untold; then model_error, causes, structure.
"""
