"""Pictures, made from answers: a drawing function takes axes and gives them back; it neither computes nor saves."""
