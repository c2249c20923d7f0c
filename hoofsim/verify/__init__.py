"""The model against the outside world: published values, independent engines, and how far its numbers may be wrong."""
