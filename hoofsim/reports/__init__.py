"""Figures, tables and one-page reports of experiments, evidence and trials."""
