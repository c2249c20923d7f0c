"""The sandbox: one foot, its controls, its measures, and what changed."""
