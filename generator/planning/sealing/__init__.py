"""What makes the boards watertight: bands on joints, collars round openings, patches over screws."""

from generator.planning.sealing.plan import plan_bands

__all__ = ["plan_bands"]
