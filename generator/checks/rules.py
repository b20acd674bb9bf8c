"""What is checked, in the order in which a person would: the framing, the layout, the work, the codes, the solids."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from generator.checks import (
    base,
    codes,
    fastening,
    flatness,
    framing_found,
    framing_planned,
    layout,
    openings,
    sealing,
    sheets,
    solid,
    stagger,
    stud_damage,
)
from generator.checks.measuring import Check
from generator.model.findings import Measure, Phase
from generator.model.plan import Plan
from generator.model.room import Room

if TYPE_CHECKING:
    from generator.solids.records import Bodies

SolidCheck = Callable[[Room, Plan, "Bodies"], Iterator[Measure]]

PLAN_RULES: tuple[tuple[str, Phase, Check], ...] = (
    ("support-spacing", "found", framing_found.spacing_found),
    ("corner-backing", "found", framing_found.corner_backing),
    ("collision-body", "found", framing_found.collision_body_found),
    ("collision-pipe", "found", framing_found.collision_pipe_found),
    ("opening-stud-clearance", "found", openings.opening_stud_clearance),
    ("duty-known", "found", codes.duty_known),
    ("notch-bearing", "found", stud_damage.notch_bearing),
    ("notch-nonbearing", "found", stud_damage.notch_nonbearing),
    ("bore-bearing", "found", stud_damage.bore_bearing),
    ("bore-doubled", "found", stud_damage.bore_doubled),
    ("bore-run", "found", stud_damage.bore_run),
    ("bore-nonbearing", "found", stud_damage.bore_nonbearing),
    ("bore-edge", "found", stud_damage.bore_edge),
    ("bore-notch", "found", stud_damage.bore_notch),
    ("shield-plate", "found", stud_damage.shield_plate),
    ("flatness", "found", flatness.flatness_found),
    ("flatness", "planned", flatness.flatness_planned),
    ("flatness-corner", "planned", flatness.flatness_corner),
    ("flatness-flange", "planned", flatness.flatness_flange),
    ("planing", "planned", flatness.planing),
    ("collision-body", "planned", framing_found.collision_body_planned),
    ("collision-pipe", "planned", framing_found.collision_pipe_planned),
    ("support-spacing", "planned", framing_planned.spacing_planned),
    ("edge-on-support", "planned", framing_planned.edge_on_support),
    ("seam-on-axis", "planned", framing_planned.seam_on_axis),
    ("bearing-seam-wood", "planned", framing_planned.bearing_seam_wood),
    ("bearing-seam-steel", "planned", framing_planned.bearing_seam_steel),
    ("bearing-edge", "planned", framing_planned.bearing_edge),
    ("coverage", "planned", layout.coverage),
    ("overlap", "planned", layout.overlap),
    ("fit", "planned", layout.fit),
    ("stagger", "planned", stagger.stagger),
    ("least-rip", "planned", layout.least_rip),
    ("fits-sheet", "planned", sheets.fits_sheet),
    ("sheet-kerf", "planned", sheets.sheet_kerf),
    ("opening-margin", "planned", openings.opening_margin),
    ("pipe-clearance", "planned", openings.pipe_clearance),
    ("collar-seam", "planned", openings.collar_seam),
    ("deck-gap", "planned", base.deck_gap),
    ("flange-clearance", "planned", base.flange_clearance),
    ("rabbet-clearance", "planned", base.rabbet_clearance),
    ("rabbet-share", "planned", base.rabbet_share),
    ("bed-gap", "planned", base.bed_gap),
    ("thick-flush", "planned", base.thick_flush),
    ("leg-gap", "planned", base.leg_gap),
    ("lining-clear", "planned", base.lining_clear),
    ("screwed", "planned", fastening.screwed),
    ("screw-spacing", "planned", fastening.screw_spacing),
    ("screw-edge-distance", "planned", fastening.screw_edge_distance),
    ("screw-side-distance", "planned", fastening.screw_side_distance),
    ("washer-gap", "planned", fastening.washer_gap),
    ("screw-bite-wood", "planned", fastening.screw_bite_wood),
    ("screw-bite-steel", "planned", fastening.screw_bite_steel),
    ("pipe-zone", "planned", fastening.pipe_zone),
    ("band-lap", "planned", sealing.band_lap),
    ("band-cover", "planned", sealing.band_cover),
    ("fastener-cover", "planned", sealing.fastener_cover),
    ("finish-height", "planned", codes.finish_height),
    ("finish-height-drain", "planned", codes.finish_height_drain),
    ("shower-area", "planned", codes.shower_area),
    ("shower-side", "planned", codes.shower_side),
    ("foam-listing", "planned", codes.foam_listing),
)

SOLID_RULES: tuple[tuple[str, Phase, SolidCheck], ...] = (
    ("solid-bearing", "solid", solid.solid_bearing),
    ("solid-deck-gap", "solid", solid.solid_deck_gap),
    ("solid-flange-clearance", "solid", solid.solid_flange_clearance),
    ("solid-interference", "solid", solid.solid_interference),
    ("solid-volume", "solid", solid.solid_volume),
)
