"""The foot before anything pushes on it: named parameters, presets, landmarks and outlines."""
