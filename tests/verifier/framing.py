"""Spacing of supports at every height of every board, and seams that meet in one point."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from tests.verifier.edges import is_upright
from tests.verifier.plain import (
    SEEN,
    TOUCH,
    Record,
    Span,
    Violation,
    axis_at,
    broken,
    by_id,
    faces_at,
    heights,
    just_inside,
    level_cuts,
    limit,
    on_wall,
    rakes_at,
    stretches,
    upright,
)

SeamLine = tuple[float, Span]


def check_spacing(plan: Record) -> Iterator[Violation]:
    for board in plan["boards"]:
        supports = on_wall(plan, "supports", board["wall"])
        wide = max(_bays(plan, board, supports), default=0.0)
        if wide > limit(plan, "support-spacing") + SEEN:
            yield broken("support-spacing", board["wall"], f"{board['id']} spans a bay of {wide:.3f}")


def _bays(plan: Record, board: Record, supports: list[Record]) -> Iterator[float]:
    """Widths of the bays of a board that no level support carries, at every height."""
    mouths = [o["ring"] for o in board["openings"] if o.get("feature_id")]
    vs = [v for _, v in board["outline"]]
    outline = by_id(plan, "walls")[board["wall"]]["outline"]
    framing = [v for _, v in outline]
    ends = [v for ring in mouths for _, v in ring]
    within = max(min(vs), min(framing)), min(max(vs), max(framing))
    for low, high in stretches([*vs, *ends, *heights(supports)], *within):
        for v in just_inside(low, high):
            faces, inner = faces_at(supports, v), level_cuts(outline, v)[0]
            cuts = sorted(u for ring in (board["outline"], *mouths) for span in level_cuts(ring, v) for u in span)
            for piece in zip(cuts[::2], cuts[1::2], strict=True):
                for bay in pairwise(_lines(plan, piece, faces, v)):
                    if not _carried((max(bay[0], inner[0]), min(bay[1], inner[1])), faces):
                        yield _uncarried(bay, rakes_at(supports, v))


def crossed(piece: Span, face: Span, least: float) -> bool:
    return min(piece[1], face[1]) - max(piece[0], face[0]) >= least - SEEN


def _lines(plan: Record, piece: Span, faces: list[tuple[Record, Span]], v: float) -> list[float]:
    least = limit(plan, "bearing-edge")
    axes = [axis_at(s, v) for s, f in faces if upright(s) and crossed(piece, f, least)]
    return sorted([piece[0], *(min(max(a, piece[0]), piece[1]) for a in axes), piece[1]])


def _carried(bay: Span, faces: list[tuple[Record, Span]]) -> bool:
    """True when level supports fill the bay from upright face to upright face."""
    if not any(not upright(s) and f[0] < bay[1] and f[1] > bay[0] for s, f in faces):
        return False
    reached = bay[0]
    for low, high in sorted(f for _, f in faces):
        if low > reached + TOUCH:
            break
        reached = max(reached, high)
    return reached >= bay[1] - TOUCH


def _uncarried(bay: Span, rakes: list[Span]) -> float:
    """What a plate along a rake, which begins or ends in a bay, leaves of it."""
    pieces = [bay]
    for low, high in rakes:
        pieces = [p for a, b in pieces for p in ((a, min(b, low)), (max(a, high), b)) if p[1] > p[0]]
    return max((b - a for a, b in pieces), default=0.0)


def check_stagger(plan: Record) -> Iterator[Violation]:
    """No two seams cross, and none ends on a seam within the stagger of one that ends there from the other side."""
    for wall in plan["walls"]:
        upright_seams, level_seams = (_seam_lines(plan, wall["id"], at) for at in (0, 1))
        for u, (low, high) in upright_seams:
            for v, (left, right) in level_seams:
                if left + TOUCH < u < right - TOUCH and low + TOUCH < v < high - TOUCH:
                    yield broken("stagger", wall["id"], f"seams of {wall['id']} cross at {u:.3f}, {v:.3f}")
        for seams, lines in ((upright_seams, level_seams), (level_seams, upright_seams)):
            yield from _ends_near(plan, wall["id"], seams, lines)


def _ends_near(plan: Record, wall: str, seams: list[SeamLine], lines: list[SeamLine]) -> Iterator[Violation]:
    least = limit(plan, "stagger")
    for at, (low, high) in lines:
        reached = [(x, s) for x, s in seams if low - TOUCH <= x <= high + TOUCH]
        below = [x for x, s in reached if abs(s[1] - at) < TOUCH]
        above = [x for x, s in reached if abs(s[0] - at) < TOUCH]
        near = min((abs(a - b) for a in below for b in above), default=least)
        if near < least - SEEN:
            yield broken("stagger", wall, f"two seams of {wall} end {near:.3f} apart on the seam at {at:.3f}")


def _seam_lines(plan: Record, wall: str, at: int) -> list[SeamLine]:
    """Straight seams of a wall as (place, from-to): upright ones at a u (`at` 0), level ones at a v (`at` 1)."""
    boards = by_id(plan, "boards")
    lines: dict[float, list[Span]] = {}
    for edge in plan["edges"]:
        if edge["role"] == "seam" and boards[edge["board"]]["wall"] == wall and is_upright(edge) == (at == 0):
            low, high = sorted((edge["p"][1 - at], edge["q"][1 - at]))
            lines.setdefault(round(edge["p"][at], 2), []).append((low, high))
    return [(place, span) for place in sorted(lines) for span in _joined(lines[place])]


def _joined(spans: list[Span]) -> list[Span]:
    joined: list[Span] = []
    for low, high in sorted(spans):
        if joined and low <= joined[-1][1] + TOUCH:
            joined[-1] = joined[-1][0], max(joined[-1][1], high)
        else:
            joined.append((low, high))
    return joined
