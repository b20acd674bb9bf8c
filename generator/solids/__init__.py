"""Plan -> named bodies, sections, projections, STEP. The only place that knows the modelling kernel."""

from generator.solids.bodies import make_bodies
from generator.solids.records import Bodies, Body, BodyKind
from generator.solids.sections import cut_section, level_section, section, sections
from generator.solids.step import step_bytes
from generator.solids.views import projections

__all__ = [
    "Bodies",
    "Body",
    "BodyKind",
    "cut_section",
    "level_section",
    "make_bodies",
    "projections",
    "section",
    "sections",
    "step_bytes",
]
