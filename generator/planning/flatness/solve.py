"""The plane and the shims as a linear problem in whole steps; the solver is stopped by nodes, never by the clock."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from generator.planning.flatness.faces import Face, Flatness, close_pairs
from generator.planning.layout.linear import INFINITE, Row, make_solver

METRE = 1000.0
"""Slopes are in mm per metre, which keeps the numbers of the problem near one another."""
NODES = 200
"""Nodes of one search: a limit that is the same on every machine."""
Terms = Mapping[int, float]
"""Coefficients of one row, by column."""


@dataclass(frozen=True, slots=True)
class Tied:
    """A point (u, v) that the plane goes through, `off` behind the line."""

    u: float
    v: float
    off: float


@dataclass(frozen=True, slots=True)
class Plane:
    """How far the plane lies behind the line: `at` mm at (0, 0), slopes in mm per metre."""

    at: float
    across: float
    up: float

    def off(self, u: float, v: float) -> float:
        """The distance behind the line at a point, mm."""
        return self.at + (self.across * u + self.up * v) / METRE


@dataclass(frozen=True, slots=True)
class Moves:
    """Whole steps by which each face is brought forward (planed: negative); material and its least bound in mm3."""

    steps: tuple[int, ...]
    material: float
    bound: float


@dataclass(frozen=True, slots=True)
class _Column:
    cost: float = 0.0
    low: float = -INFINITE
    high: float = INFINITE
    whole: bool = False


_PLANE = (_Column(), _Column(), _Column())
_Line = tuple[Row, Terms]


def _at(u: float, v: float) -> dict[int, float]:
    """The plane's off at a point, as terms of its three columns."""
    return {0: 1.0, 1: u / METRE, 2: v / METRE}


def _difference(a: Face, b: Face) -> dict[int, float]:
    return {1: (a.u - b.u) / METRE, 2: (a.v - b.v) / METRE}


def flattest_plane(faces: Sequence[Face], wanted: Flatness, tied: Sequence[Tied] = ()) -> tuple[Plane, float]:
    """The plane in front of all faces that holds both rules with the most to spare, and its share of the limits.

    A share of at most 1 holds both; it is infinite where the tied points allow no such plane.
    """
    lines: list[_Line] = [(Row(t.off, t.off), _at(t.u, t.v)) for t in tied]
    for face in faces:
        lines.append((Row(-INFINITE, face.off), _at(face.u, face.v)))
        lines.append((Row(face.off, INFINITE), {**_at(face.u, face.v), 3: wanted.far}))
    for i, j, most in close_pairs(faces, wanted):
        apart, terms = faces[i].off - faces[j].off, _difference(faces[i], faces[j])
        lines.append((Row(apart, INFINITE), {**terms, 3: most}))
        lines.append((Row(-INFINITE, apart), {**terms, 3: -most}))
    solved = _solve((*_PLANE, _Column(1.0, 0.0)), lines)
    if solved is None:
        return Plane(0.0, 0.0, 0.0), INFINITE
    values = solved[0]
    return Plane(values[0], values[1], values[2]), values[3]


def least_moves(faces: Sequence[Face], wanted: Flatness, step: float, tied: Sequence[Tied] = ()) -> Moves | None:
    """The moves, in whole steps of `step` mm, that take least material; None where none will do.

    Columns: the plane, then for each face its steps of shim and its steps of planing.
    """
    unit = max(face.area for face in faces)
    columns = [*_PLANE]
    for face in faces:
        most = INFINITE if face.most_shim is None else float(face.most_shim)
        columns += [_Column(face.area / unit, 0.0, most, True), _Column(face.area / unit, 0.0, face.most_plane, True)]
    lines = _move_lines(faces, wanted, step, tied)
    relaxed = _solve([_Column(c.cost, c.low, c.high) for c in columns], lines)
    whole = _solve(columns, lines) if relaxed is not None else None
    if relaxed is None or whole is None:
        return None
    steps = tuple(round(whole[0][3 + 2 * i]) - round(whole[0][4 + 2 * i]) for i in range(len(faces)))
    material = sum(abs(n) * face.area for n, face in zip(steps, faces, strict=True)) * step
    return Moves(steps, material, min(max(relaxed[1], whole[2]) * unit * step, material))


def _move_lines(faces: Sequence[Face], wanted: Flatness, step: float, tied: Sequence[Tied]) -> list[_Line]:
    lines: list[_Line] = [(Row(t.off, t.off), _at(t.u, t.v)) for t in tied]
    for i, face in enumerate(faces):
        lines.append((Row(face.off - wanted.far, face.off), {**_at(face.u, face.v), **_moved(i, step)}))
    for i, j, most in close_pairs(faces, wanted):
        apart = faces[i].off - faces[j].off
        terms = {**_difference(faces[i], faces[j]), **_moved(i, step), **_moved(j, -step)}
        lines.append((Row(apart - most, apart + most), terms))
    return lines


def _moved(index: int, step: float) -> dict[int, float]:
    return {3 + 2 * index: step, 4 + 2 * index: -step}


def _solve(columns: Sequence[_Column], lines: Sequence[_Line]) -> tuple[list[float], float, float] | None:
    """Values, cost and the bound of the cost; None where there is no solution."""
    import highspy

    solver = make_solver([row for row, _ in lines])
    solver.setOptionValue("mip_max_nodes", NODES)
    for number, column in enumerate(columns):
        rows = [i for i, (_, terms) in enumerate(lines) if number in terms]
        _add(solver, number, column, rows, [lines[i][1][number] for i in rows])
    solver.run()
    info = solver.getInfo()
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    whole = any(column.whole for column in columns)
    cost = float(info.objective_function_value)
    return list(solver.getSolution().col_value), cost, float(info.mip_dual_bound) if whole else cost


def _add(solver: Any, number: int, column: _Column, rows: list[int], values: list[float]) -> None:
    import highspy

    solver.addCol(column.cost, column.low, column.high, len(rows), rows, values)
    if column.whole:
        solver.changeColIntegrality(number, highspy.HighsVarType.kInteger)
