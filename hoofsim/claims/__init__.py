"""Testing a claim: rival accounts, what separates them, experiments, evidence tables and matching a case."""
