"""What conditioning hands on: its record, and what it found in words.

In: a `Separated` and the rows it was made of. Out: `TraceModel` and `Conditioned`, and sentences about them. Called by
`condition`; curves, health and pictures read the records. Read in this order: trace_model, result, left_words, words.
"""
