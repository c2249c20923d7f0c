"""The moving foot: pymunk bodies driven by the same element laws as the equilibrium, on a fixed clock."""

from hoofsim.scene.scene import Scene
from hoofsim.scene.shown import MovingFoot
from hoofsim.scene.snapshot import Snapshot

__all__ = ["MovingFoot", "Scene", "Snapshot"]
