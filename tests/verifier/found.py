"""The framing as found, judged from plan.json alone: what is broken must stand among its findings as a fail."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from shapely import Point as Spot
from shapely.geometry.base import BaseGeometry

from tests.verifier.plain import Record, Violation, limit, on_wall, rect, shape, wet


def check_collisions(plan: Record) -> Iterator[Violation]:
    """A valve's body, or a pipe with its clearance, within a stud that was found."""
    for wall in plan["walls"]:
        region = wet(wall)
        own = on_wall(plan, "supports", wall["id"])
        found = [s for s in own if s["origin"] == "found" and s["material"] != "masonry"]  # pipes are chased into that
        for fitting in on_wall(plan, "fittings", wall["id"]):
            if not region.contains(Spot(fitting["centre"])):
                continue
            for rule, body in _bodies(plan, fitting):
                hit = any(body.intersection(shape(s["outline"])).area > 1.0 for s in found)
                if hit and not is_failed(plan, rule, wall["id"], ("found",)):
                    yield Violation(
                        "found-collision", f"{fitting['id']} meets a support; no finding says so", rule, wall["id"]
                    )


def _bodies(plan: Record, fitting: Record) -> Iterator[tuple[str, BaseGeometry]]:
    u, v = fitting["centre"]
    if fitting["body"] is not None:
        half = fitting["body"]["width"] / 2, fitting["body"]["height"] / 2
        yield "collision-body", rect(u - half[0], v - half[1], u + half[0], v + half[1])
    if fitting["outside_diameter"] is not None:
        yield "collision-pipe", Spot(u, v).buffer((fitting["outside_diameter"] + limit(plan, "pipe-clearance")) / 2)


def check_spacing_found(plan: Record) -> Iterator[Violation]:
    """Two found uprights, neighbours over the full height of the wet region, farther apart than the limit."""
    most = limit(plan, "support-spacing")
    for wall in plan["walls"]:
        region = wet(wall)
        if region.is_empty or any(s["kind"] == "blocking" for s in on_wall(plan, "supports", wall["id"])):
            continue
        left, _, right, _ = region.bounds
        axes = sorted(
            s["axis"][0][0]
            for s in on_wall(plan, "supports", wall["id"])
            if s["origin"] == "found" and s["kind"] in ("stud", "nailer") and left <= s["axis"][0][0] <= right
        )
        wide = max((b - a for a, b in pairwise(axes)), default=0.0)
        if wide > most + 0.01 and not is_failed(plan, "support-spacing", wall["id"], ("found",)):
            message = f"a found bay of {wide:.3f} on {wall['id']} is no finding"
            yield Violation("found-spacing", message, "support-spacing", wall["id"])


def is_failed(plan: Record, rule: str, wall: str, phases: tuple[str, ...]) -> bool:
    """True when a finding of that rule fails on that wall, or without a wall."""
    return any(
        f["rule"] == rule and f["verdict"] == "fail" and f["phase"] in phases and f["place"]["wall"] in (wall, None)
        for f in plan["findings"]
    )
