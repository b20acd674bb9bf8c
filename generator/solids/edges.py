"""Edges that a camera sees, and those hidden from it, as chords on the paper."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from generator.model.geometry import Point
from generator.solids.camera import Camera
from generator.solids.kernel import kernel

CHORD_ANGLE = 0.1
"""Radians that one chord of a curved edge turns at most."""
Chain = tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Edges:
    """Chains of points on the paper: creases and outlines, tangent joints between faces, and what is hidden."""

    sharp: tuple[Chain, ...]
    smooth: tuple[Chain, ...]
    hidden: tuple[Chain, ...]


def seen_edges(shapes: Iterable[Any], camera: Camera) -> Edges:
    """Exact hidden-line removal of all shapes together."""
    from OCP.HLRAlgo import HLRAlgo_Projector
    from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape

    algorithm = HLRBRep_Algo()
    algorithm.Add(kernel().Compound.makeCompound(list(shapes)).wrapped)
    algorithm.Projector(HLRAlgo_Projector(camera.axes()))
    algorithm.Update()
    algorithm.Hide()
    result = HLRBRep_HLRToShape(algorithm)
    return Edges(
        sharp=(*_chains(result.VCompound()), *_chains(result.OutLineVCompound())),
        smooth=_chains(result.Rg1LineVCompound()),
        hidden=(*_chains(result.HCompound()), *_chains(result.OutLineHCompound())),
    )


def _chains(compound: Any) -> tuple[Chain, ...]:
    """The edges of what the kernel returns: nothing, or a compound of plane curves."""
    if compound is None or compound.IsNull():
        return ()
    from OCP.BRepLib import BRepLib

    BRepLib.BuildCurves3d_s(compound)
    return tuple(_chain(edge) for edge in kernel().Shape.cast(compound).Edges())


def _chain(edge: Any) -> Chain:
    steps = 1 if edge.geomType() == "LINE" else max(4, math.ceil(_turn(edge) / CHORD_ANGLE))
    return tuple((p.x, p.y) for p in edge.positions([i / steps for i in range(steps + 1)]))


def _turn(edge: Any) -> float:
    """Angle that a curve's tangent turns through, by sixteen samples (radians)."""
    tangents = edge.tangents([i / 16 for i in range(17)])
    return float(sum(a.getAngle(b) for a, b in itertools.pairwise(tangents)))
