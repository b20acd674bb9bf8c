"""Where the screws go: a row along each upright support that a board crosses."""

from generator.planning.fastening.plan import plan_fasteners
from generator.planning.fastening.screws import screw_for

__all__ = ["plan_fasteners", "screw_for"]
