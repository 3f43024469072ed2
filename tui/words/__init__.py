"""What is read on the screens: facts, figures and sums in a fitter's words."""
