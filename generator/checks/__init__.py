"""What must be true: one small function for each rule; it measures the plan or the solids, never a drawing."""

from generator.checks.explain import explain
from generator.checks.runner import rules_used, run_plan_checks, run_solid_checks
from generator.checks.table import findings_table

__all__ = ["explain", "findings_table", "rules_used", "run_plan_checks", "run_solid_checks"]
