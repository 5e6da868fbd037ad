"""Imports point down only, floor by floor, and the quiet floors stay quiet."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1] / "service"

ALLOWED = {
    "tables": {"tables"},
    "errors": set(),
    "units": set(),
    "settings": set(),
    "log_lines": set(),
    "calculations": {"calculations", "tables", "errors"},
    "drawings": {"drawings", "calculations", "tables", "units"},
    "reports": {"reports", "drawings", "calculations", "tables", "units"},
    "pages": {"pages", "tables"},
    "schemas": {"schemas", "calculations", "tables", "errors", "units"},
    "routes": {
        "routes",
        "pages",
        "reports",
        "drawings",
        "schemas",
        "calculations",
        "tables",
        "errors",
        "units",
        "settings",
        "log_lines",
    },
    "app": {"routes", "settings"},
}

FOREIGN = {
    "flask": {"routes", "app"},
    "flask_smorest": {"routes"},
    "werkzeug": {"routes", "app"},
    "pint": {"units"},
    "marshmallow": {"schemas", "routes"},
    "numpy": {"calculations"},
    "fluids": {"calculations"},
    "svg": {"drawings"},
    "jinja2": {"reports", "pages"},
    "markdown_it": {"pages"},
    "typst": {"reports"},
    "opentelemetry": {"routes"},
    "gunicorn": set(),
    "scipy": set(),
    "CoolProp": set(),
    "psychrolib": set(),
    "iapws": set(),
}

MODULES = sorted(path for path in ROOT.rglob("*.py") if path != ROOT / "__init__.py")


def floor(path: Path) -> str:
    first = path.relative_to(ROOT).parts[0]
    return first.removesuffix(".py")


def imported(path: Path) -> set[str]:
    names = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path} imports relatively"
            assert node.module is not None
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return names


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_a_module_imports_only_what_its_floor_may(path: Path) -> None:
    for name in imported(path):
        parts = name.split(".")
        if parts[0] == "service":
            assert parts[1] in ALLOWED[floor(path)], f"{floor(path)} may not import {name}"
        elif parts[0] in FOREIGN:
            assert floor(path) in FOREIGN[parts[0]], f"{floor(path)} may not import {parts[0]}"


def test_calculations_have_no_circle() -> None:
    graph = {
        f"service.calculations.{path.stem}": {
            ".".join(name.split(".")[:3]) for name in imported(path) if name.startswith("service.calculations.")
        }
        for path in (ROOT / "calculations").glob("*.py")
        if path.stem != "__init__"
    }
    done: set[str] = set()

    def visit(name: str, above: tuple[str, ...]) -> None:
        assert name not in above, " -> ".join((*above, name))
        if name not in done:
            for below in graph.get(name, ()):
                visit(below, (*above, name))
            done.add(name)

    for name in graph:
        visit(name, ())


@pytest.mark.parametrize("path", sorted(ROOT.rglob("__init__.py")), ids=str)
def test_an_init_file_is_a_docstring(path: Path) -> None:
    body = ast.parse(path.read_text(encoding="utf-8")).body
    assert len(body) == 1
    assert isinstance(body[0], ast.Expr)


def test_a_calculation_loads_neither_flask_nor_pint() -> None:
    code = (
        "import sys, service.calculations.assessment; "
        "print(sorted({'flask', 'pint', 'marshmallow', 'scipy', 'CoolProp'} & set(sys.modules)))"
    )
    out = subprocess.run([sys.executable, "-c", code], cwd=ROOT.parent, capture_output=True, text=True, check=True)
    # fluids loads SciPy by itself where it is installed; the service does not install it
    assert set(ast.literal_eval(out.stdout)) <= {"scipy"}
