"""What is checked, in the order in which a person would: the framing, the layout, the work, the codes, the solids."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from generator.checks import (
    access_bars,
    access_room,
    base,
    codes,
    curbs,
    fastening,
    flatness,
    framing_found,
    framing_planned,
    headroom,
    layout,
    mounted,
    niches,
    openings,
    sealing,
    seats,
    sheets,
    solid,
    stagger,
    stud_damage,
)
from generator.checks.measuring import Check
from generator.model.findings import Measure, Phase
from generator.model.mounts import Accessible
from generator.model.plan import Plan
from generator.model.room import Room

if TYPE_CHECKING:
    from generator.solids.records import Bodies

Kinds = tuple[Accessible, ...]
SolidCheck = Callable[[Room, Plan, "Bodies"], Iterator[Measure]]

PLAN_RULES: tuple[tuple[str, Phase, Check], ...] = (
    ("support-spacing", "found", framing_found.spacing_found),
    ("corner-backing", "found", framing_found.corner_backing),
    ("collision-body", "found", framing_found.collision_body_found),
    ("collision-pipe", "found", framing_found.collision_pipe_found),
    ("opening-stud-clearance", "found", openings.opening_stud_clearance),
    ("duty-known", "found", codes.duty_known),
    ("masonry-ready", "found", codes.masonry_ready),
    ("notch-bearing", "found", stud_damage.notch_bearing),
    ("notch-nonbearing", "found", stud_damage.notch_nonbearing),
    ("bore-bearing", "found", stud_damage.bore_bearing),
    ("bore-doubled", "found", stud_damage.bore_doubled),
    ("bore-run", "found", stud_damage.bore_run),
    ("bore-nonbearing", "found", stud_damage.bore_nonbearing),
    ("bore-edge", "found", stud_damage.bore_edge),
    ("bore-notch", "found", stud_damage.bore_notch),
    ("shield-plate", "found", stud_damage.shield_plate),
    ("niche-clear", "found", niches.niche_clear),
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
    ("seat-span", "planned", seats.seat_span),
    ("seat-edge", "planned", seats.seat_edge),
    ("ledger-fixed", "planned", seats.ledger_fixed),
    ("cut-stud", "planned", niches.cut_stud),
    ("niche-depth", "planned", niches.niche_depth),
    ("drain-fall", "planned", niches.drain_fall),
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
    ("curb-screws", "planned", curbs.curb_screws),
    ("screw-spacing", "planned", fastening.screw_spacing),
    ("screw-edge-distance", "planned", fastening.screw_edge_distance),
    ("screw-side-distance", "planned", fastening.screw_side_distance),
    ("washer-gap", "planned", fastening.washer_gap),
    ("screw-bite-wood", "planned", fastening.screw_bite_wood),
    ("screw-bite-steel", "planned", fastening.screw_bite_steel),
    ("plug-depth", "planned", fastening.plug_depth),
    ("pipe-zone", "planned", fastening.pipe_zone),
    ("band-lap", "planned", sealing.band_lap),
    ("band-cover", "planned", sealing.band_cover),
    ("fastener-cover", "planned", sealing.fastener_cover),
    ("finish-height", "planned", codes.finish_height),
    ("finish-height-drain", "planned", codes.finish_height_drain),
    ("headroom", "planned", headroom.headroom),
    ("shower-area", "planned", codes.shower_area),
    ("shower-side", "planned", codes.shower_side),
    ("mount-backed", "planned", mounted.mount_backed),
    ("fitting-backed", "planned", mounted.fitting_backed),
    ("foam-listing", "planned", codes.foam_listing),
)

TRANSFER: Kinds = ("transfer_shower",)
ROLL_IN: Kinds = ("roll_in",)
TUB: Kinds = ("bathtub",)
SHOWERS = (*TRANSFER, *ROLL_IN)
ANY = (*SHOWERS, *TUB)
ACCESS_RULES: tuple[tuple[str, Phase, Check, Kinds], ...] = (
    ("ada-bars", "planned", access_bars.bars_there, ANY),
    ("ada-bar-low", "planned", access_bars.bar_low, ANY),
    ("ada-bar-high", "planned", access_bars.bar_high, ANY),
    ("ada-bar-rim-low", "planned", access_bars.bar_rim_low, TUB),
    ("ada-bar-rim-high", "planned", access_bars.bar_rim_high, TUB),
    ("ada-bar-section-least", "planned", access_bars.bar_section_least, ANY),
    ("ada-bar-section-most", "planned", access_bars.bar_section_most, ANY),
    ("ada-bar-gap-least", "planned", access_bars.bar_gap_least, ANY),
    ("ada-bar-gap-most", "planned", access_bars.bar_gap_most, ANY),
    ("ada-bar-over", "planned", access_bars.bar_over, ANY),
    ("ada-bar-clear", "planned", access_bars.bar_clear, ANY),
    ("ada-bar-adjacent", "planned", access_bars.bar_adjacent, SHOWERS),
    ("ada-bar-reach", "planned", access_bars.bar_reach, TRANSFER),
    ("ada-bar-over-seat", "planned", access_bars.bar_over_seat, SHOWERS),
    ("ada-tub-bar-length", "planned", access_bars.tub_bar_length, TUB),
    ("ada-tub-bar-head-length", "planned", access_bars.tub_bar_head_length, TUB),
    ("ada-tub-bar-head", "planned", access_bars.tub_bar_head, TUB),
    ("ada-tub-bar-head-seat", "planned", access_bars.tub_bar_head_seat, TUB),
    ("ada-tub-bar-control", "planned", access_bars.tub_bar_control, TUB),
    ("ada-seat", "planned", access_room.seat_there, TRANSFER),
    ("ada-seat-low", "planned", access_room.seat_low, ANY),
    ("ada-seat-high", "planned", access_room.seat_high, ANY),
    ("ada-seat-out-least", "planned", access_room.seat_out_least, SHOWERS),
    ("ada-seat-out-most", "planned", access_room.seat_out_most, SHOWERS),
    ("ada-control-low", "planned", access_room.control_low, TRANSFER),
    ("ada-control-high", "planned", access_room.control_high, SHOWERS),
    ("ada-control-offset", "planned", access_room.control_offset, TRANSFER),
    ("ada-control-side", "planned", access_room.control_side, TRANSFER),
    ("ada-control-wall", "planned", access_room.control_wall, ROLL_IN),
    ("ada-control-bar", "planned", access_room.control_bar, ROLL_IN),
    ("ada-tub-control", "planned", access_room.tub_control, TUB),
    ("ada-tub-control-side", "planned", access_room.tub_control_side, TUB),
    ("ada-clear-least", "planned", access_room.clear_least, TRANSFER),
    ("ada-clear-most", "planned", access_room.clear_most, TRANSFER),
    ("ada-rollin-deep", "planned", access_room.rollin_deep, ROLL_IN),
    ("ada-rollin-wide", "planned", access_room.rollin_wide, ROLL_IN),
    ("ada-threshold", "planned", access_room.threshold, SHOWERS),
)
"""What is measured in accessible places, and in which kinds of them."""

SOLID_RULES: tuple[tuple[str, Phase, SolidCheck], ...] = (
    ("solid-bearing", "solid", solid.solid_bearing),
    ("solid-deck-gap", "solid", solid.solid_deck_gap),
    ("solid-flange-clearance", "solid", solid.solid_flange_clearance),
    ("solid-interference", "solid", solid.solid_interference),
    ("solid-volume", "solid", solid.solid_volume),
)


def plan_rules(room: Room) -> tuple[tuple[str, Phase, Check], ...]:
    """The rules of a plan that this room is asked to hold."""
    access = ((rule, phase, check) for rule, phase, check, kinds in ACCESS_RULES if room.accessible in kinds)
    return (*PLAN_RULES, *access)
