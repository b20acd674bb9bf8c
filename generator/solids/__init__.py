"""Plan -> named bodies, sections, projections, STEP. The only place that knows the modelling kernel."""

from generator.solids.bodies import make_bodies
from generator.solids.records import Bodies, Body, BodyKind
from generator.solids.step import step_bytes

__all__ = ["Bodies", "Body", "BodyKind", "make_bodies", "step_bytes"]
