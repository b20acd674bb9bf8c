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


def make_solver(rows: Sequence[Row], *, presolve: str = "choose") -> Any:
    """A silent single-threaded solver with these rows and no columns.

    Without presolve, a linear problem that grew is solved from the last solution on.

    Made from the binding's base class: the constructor of its wrapper prints a banner.
    """
    import highspy

    solver = highspy.Highs.__base__()
    options: dict[str, Any] = {
        "presolve": presolve,
        "output_flag": False,
        "threads": 1,
        "random_seed": 0,
        "mip_max_nodes": NODES,
    }
    for name, value in (options | {"mip_rel_gap": 0.0, "mip_abs_gap": 1e-9}).items():
        _must(solver.setOptionValue(name, value))
    for row in rows:
        add_row(solver, row)
    return solver


def add_row(solver: Any, row: Row) -> None:
    _must(solver.addRow(row.low, row.high, 0, [], []))


def add_column(solver: Any, column: Column) -> None:
    _must(solver.addCol(column.cost, 0.0, INFINITE, len(column.rows), list(column.rows), list(column.rows.values())))


def solve_relaxed(solver: Any) -> tuple[float, list[float]]:
    """Value and row duals of the linear problem."""
    _must(solver.run())
    return float(solver.getInfo().objective_function_value), list(solver.getSolution().row_dual)


def solve_whole(rows: Sequence[Row], columns: Sequence[Column]) -> tuple[float, ...] | None:
    """The best values found within the node limit; None when there are none."""
    import highspy

    solver = make_solver(rows)
    for i, column in enumerate(columns):
        add_column(solver, column)
        if column.whole:
            _must(solver.changeColIntegrality(i, highspy.HighsVarType.kInteger))
    _must(solver.run())
    if solver.getInfo().primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    return tuple(solver.getSolution().col_value)


def _must(status: Any) -> None:
    """The solver reports errors by a status only; a run that stopped at its node limit is a warning."""
    import highspy

    if status == highspy.HighsStatus.kError:
        raise RuntimeError("the linear solver refused a call")
