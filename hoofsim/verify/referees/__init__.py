"""Independent computations: other engines, other minimisers, finite elements. Each needs an optional package."""
