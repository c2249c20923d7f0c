"""Force laws, one a file: each gives energy, its gradient and its second derivatives for arrays of any shape.

They know nothing of bodies, solvers or screens, so the equilibrium and the moving scene share them. All accept complex
input, so that tests can take complex steps; branches look at the real part only.
"""
