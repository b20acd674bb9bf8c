"""The few calls of the linear and integer solver that the purchase needs, always set up in the same way."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

NODES = 10
"""Nodes of one integer search: a limit that is the same on every machine."""


@dataclass(frozen=True, slots=True)
class Column:
    cost: float
    rows: Mapping[int, float]
    whole: bool = True


@dataclass(frozen=True, slots=True)
class Row:
    low: float
    high: float


INFINITE = float("inf")


def make_solver(rows: Sequence[Row]) -> Any:
    """A silent single-threaded solver with these rows and no columns.

    Made from the binding's base class: the constructor of its wrapper prints a banner.
    """
    import highspy

    solver = highspy.Highs.__base__()
    options: dict[str, Any] = {"output_flag": False, "threads": 1, "random_seed": 0, "mip_max_nodes": NODES}
    for name, value in (options | {"mip_rel_gap": 0.0, "mip_abs_gap": 1e-9}).items():
        _must(solver.setOptionValue(name, value))
    for row in rows:
        _must(solver.addRow(row.low, row.high, 0, [], []))
    return solver


def add_column(solver: Any, column: Column) -> None:
    _must(solver.addCol(column.cost, 0.0, INFINITE, len(column.rows), list(column.rows), list(column.rows.values())))


def solve_relaxed(solver: Any) -> tuple[float, list[float]]:
    """Value and row duals of the linear problem."""
    _must(solver.run())
    return float(solver.getInfo().objective_function_value), list(solver.getSolution().row_dual)


@dataclass(frozen=True, slots=True)
class Whole:
    """Answer of an integer search; `complete`: nothing better exists among the columns."""

    values: tuple[float, ...]
    objective: float
    complete: bool


def solve_levels(rows: Sequence[Row], columns: Sequence[Column], levels: Sequence[Sequence[float]]) -> Whole | None:
    """Minimises each level in turn without giving up what the ones before reached; None when nothing is feasible.

    `columns[i].cost` is not used; `levels[k][i]` is the cost of column i in level k.
    """
    import highspy

    solver = make_solver(rows)
    for i, column in enumerate(columns):
        add_column(solver, column)
        if column.whole:
            _must(solver.changeColIntegrality(i, highspy.HighsVarType.kInteger))
    best: Whole | None = None
    for costs in levels:
        found = _solve_whole(solver, costs)
        if found is None:
            return best
        best = Whole(found.values, found.objective, found.complete and (best is None or best.complete))
        used = [i for i, c in enumerate(costs) if c]
        _must(solver.addRow(-INFINITE, found.objective + _slack(costs), len(used), used, [costs[i] for i in used]))
    return best


def _slack(costs: Sequence[float]) -> float:
    """What may be given up of a level for the next ones: float noise only."""
    return 1e-7 * max((abs(c) for c in costs), default=1.0)


def _solve_whole(solver: Any, costs: Sequence[float]) -> Whole | None:
    import highspy

    _must(solver.changeColsCost(len(costs), list(range(len(costs))), list(costs)))
    _must(solver.run())
    status = solver.getModelStatus()
    info = solver.getInfo()
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    complete = status == highspy.HighsModelStatus.kOptimal
    return Whole(tuple(solver.getSolution().col_value), float(info.objective_function_value), complete)


def _must(status: Any) -> None:
    """The solver reports errors by a status only; a run that stopped at its node limit is a warning."""
    import highspy

    if status == highspy.HighsStatus.kError:
        raise RuntimeError("the linear solver refused a call")
