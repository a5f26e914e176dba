"""The half-car at small angles, compiled: what the launch at large angles must come to where angles are small.

Dampers, drives, figures and traces are those of `dynoan.analysis.launch`; the equations and their solution are its own.
"""
