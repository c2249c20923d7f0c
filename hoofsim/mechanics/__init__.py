"""Forces, freedoms and rest: the loaded foot's equilibrium by minimum potential energy, batched over feet."""
