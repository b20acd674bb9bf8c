"""The house as DEVELOPERS.md lays it out: imports go down only, heavy libraries wait until they are needed."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
LEVELS = {
    "model": 0,
    "units": 0,
    "errors": 0,
    "lettering": 0,
    "reading": 1,
    "planning": 2,
    "asking": 2,
    "solids": 3,
    "checks": 4,
    "drafting": 4,
    "drawings": 5,
    "writers": 6,
    "disk": 7,
    "build": 7,
    "forms": 7,
    "comparing": 7,
    "cli": 8,
}
STRANGERS = {("checks", "drafting"), ("drafting", "checks"), ("asking", "planning"), ("planning", "asking")}
HEAVY = {"cadquery", "OCP", "ezdxf", "reportlab", "shapely", "highspy", "ortools", "numpy", "rich", "pydantic"}
FILES = sorted((ROOT / "generator").rglob("*.py"))


def _imports(file: Path) -> list[tuple[str, int, bool]]:
    """(module, line, at top level and not for typing only) of each import."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    typing_only = {
        id(node)
        for block in ast.walk(tree)
        if isinstance(block, ast.If) and ast.unparse(block.test) == "TYPE_CHECKING"
        for node in ast.walk(block)
    }
    top = {id(node) for node in tree.body}
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Import | ast.ImportFrom):
            names = [a.name for a in node.names] if isinstance(node, ast.Import) else [node.module or ""]
            found += [(name, node.lineno, id(node) in top and id(node) not in typing_only) for name in names]
    return found


@pytest.mark.parametrize("file", FILES, ids=lambda f: str(f.relative_to(ROOT)))
def test_imports_go_down_only(file: Path) -> None:
    own = file.relative_to(ROOT / "generator").parts[0].removesuffix(".py")
    for module, line, _ in _imports(file):
        parts = module.split(".")
        if parts[0] != "generator" or len(parts) < 2 or own == "__init__":
            continue
        assert parts[1] == own or LEVELS[parts[1]] <= LEVELS[own], f"{file}:{line} {own} imports {module} above it"
        assert parts[1] == own or LEVELS[parts[1]] < LEVELS[own] or LEVELS[own] == 7 or LEVELS[own] == 0, (
            f"{file}:{line} {own} imports its neighbour {module}"
        )
        assert (own, parts[1]) not in STRANGERS


@pytest.mark.parametrize("file", FILES, ids=lambda f: str(f.relative_to(ROOT)))
def test_heavy_libraries_are_imported_where_they_are_used(file: Path) -> None:
    allowed = {"pydantic"} if "reading" in file.parts else set()
    heavy = [(m, line) for m, line, at_top in _imports(file) if at_top and m.split(".")[0] in HEAVY - allowed]
    assert heavy == []


@pytest.mark.parametrize("file", FILES, ids=lambda f: str(f.relative_to(ROOT)))
def test_only_solids_know_the_solid_kernel(file: Path) -> None:
    own = file.relative_to(ROOT / "generator").parts[0]
    assert own == "solids" or not {m.split(".")[0] for m, _, _ in _imports(file)} & {"cadquery", "OCP"}


def _loaded_after(code: str) -> set[str]:
    script = f"import sys\n{code}\nprint(' '.join(sorted({{m.split('.')[0] for m in sys.modules}})))"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, cwd=ROOT, check=True)
    return set(done.stdout.split("\n")[-2].split())


def test_the_command_starts_without_heavy_libraries() -> None:
    assert not _loaded_after("import generator.cli") & {"cadquery", "OCP", "ezdxf", "reportlab", "shapely", "pydantic"}


def test_a_check_never_loads_the_solid_kernel() -> None:
    room = "Path('profiles/rooms/recess.yaml')"
    code = f"from pathlib import Path\nfrom generator.build import check_room\ncheck_room({room}, ())"
    assert not _loaded_after(code) & {"cadquery", "OCP", "ezdxf", "reportlab"}


def test_the_top_level_holds_only_what_belongs_there() -> None:
    listed = subprocess.run(["git", "ls-files"], capture_output=True, text=True, cwd=ROOT, check=False).stdout.split()
    top = {Path(name).parts[0] for name in listed if not name.startswith(".")}
    assert top <= {"README.md", "DEVELOPERS.md", "pyproject.toml", "generator", "profiles", "tests", "out", "LICENSE"}
