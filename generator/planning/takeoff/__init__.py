"""What the plan consumes, with the arithmetic, in packages."""

from generator.planning.takeoff.plan import plan_takeoff
from generator.planning.takeoff.rows import shortfall

__all__ = ["plan_takeoff", "shortfall"]
