"""Everything public in ``service`` says what it is, and a calculation's documented parameters are its own."""

import ast
import importlib
import inspect
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1] / "service"
MODULES = sorted(ROOT.rglob("*.py"))
SECTIONS = {
    "Parameters",
    "Attributes",
    "Returns",
    "Raises",
    "Notes",
    "Examples",
    "References",
    "Validity",
    "Yields",
    "See Also",
}

PURE = re.compile(r"(ratio|fraction|margin|factor|percent|reynolds|roughness)\b")
"""How the name of a pure number ends; any other number has a unit."""

Described = ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef


def public(tree: ast.Module) -> Iterator[tuple[str, Described]]:
    """Public functions and classes, and the public methods of public classes."""
    for node in tree.body:
        if isinstance(node, Described) and not node.name.startswith("_"):
            yield node.name, node
            if isinstance(node, ast.ClassDef):
                for inner in node.body:
                    if isinstance(inner, (ast.FunctionDef, ast.AsyncFunctionDef)) and not inner.name.startswith("_"):
                        yield f"{node.name}.{inner.name}", inner


def overrides(cls: type, name: str) -> bool:
    """Whether a base class describes the method already."""
    return any(inspect.getdoc(base.__dict__[name]) for base in cls.__mro__[1:] if name in base.__dict__)


def module_name(path: Path) -> str:
    return ".".join(path.relative_to(ROOT.parent).with_suffix("").parts).removesuffix(".__init__")


def sections(docstring: str) -> dict[str, str]:
    """Text of each underlined section of a numpy-style docstring."""
    parts = re.split(r"^([A-Z][A-Za-z ]+)\n-{3,}$", inspect.cleandoc(docstring), flags=re.MULTILINE)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def documented(section: str) -> list[str]:
    """Parameter names of a numpy-style section, without their stars."""
    names = []
    for line in section.splitlines():
        if line and not line.startswith(" "):
            names += [name.strip().lstrip("*") for name in line.partition(" : ")[0].split(",")]
    return names


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_everything_public_has_a_docstring(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    assert ast.get_docstring(tree), "the module"
    for name, node in public(tree):
        if ast.get_docstring(node):
            continue
        cls, _, method = name.partition(".")
        assert method, name
        assert overrides(getattr(importlib.import_module(module_name(path)), cls), method), name


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_a_docstring_begins_with_one_line_that_ends(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for name, node in [("the module", tree), *public(tree)]:
        docstring = ast.get_docstring(node)
        if docstring:
            first, *rest = docstring.splitlines()
            assert first.rstrip().endswith((".", "?", ":")), f"{name}: {first}"
            assert not rest or not rest[0].strip(), f"{name}: a blank line after the first"
            for section in sections(docstring):
                assert section in SECTIONS, f"{name}: {section}"


CALCULATIONS = sorted(path for path in (ROOT / "calculations").glob("*.py") if path.stem != "__init__")


@pytest.mark.parametrize("path", CALCULATIONS, ids=lambda path: path.stem)
def test_the_documented_parameters_are_the_signature(path: Path) -> None:
    """The same names, wherever a calculation describes them; one that answers must."""
    module = importlib.import_module(module_name(path))
    for name, node in public(ast.parse(path.read_text(encoding="utf-8"))):
        described = sections(ast.get_docstring(node) or "")
        first, _, method = name.partition(".")
        owner = getattr(module, first)
        if isinstance(node, ast.ClassDef):
            fields = getattr(owner, "__dataclass_fields__", {})
            names = {field for field in fields if fields[field].init}
            # given by keyword, so in any order; what is a calculation's whole result is described there
            assert set(documented(described.get("Parameters", described.get("Attributes", "")))) <= names, name
            continue
        called = inspect.getattr_static(owner, method) if method else owner
        if isinstance(called, property):
            continue
        called = called.__func__ if isinstance(called, classmethod) else called
        names = [parameter for parameter in inspect.signature(called).parameters if parameter not in ("self", "cls")]
        returns = ast.unparse(node.returns) if node.returns else ""
        assert not returns.startswith("Answer[") or set(described) >= {"Parameters", "Returns", "Raises"}, name
        assert "Parameters" not in described or documented(described["Parameters"]) == names, name


@pytest.mark.parametrize("path", CALCULATIONS, ids=lambda path: path.stem)
def test_a_calculations_numbers_have_units(path: Path) -> None:
    """Every float that a public function of the calculations takes names its unit in brackets."""
    for name, node in public(ast.parse(path.read_text(encoding="utf-8"))):
        if "." in name or isinstance(node, ast.ClassDef):
            continue
        section = sections(ast.get_docstring(node) or "").get("Parameters", "")
        entries = re.split(r"^(?=\S)", section.strip("\n"), flags=re.MULTILINE)
        for entry in entries:
            parameter, _, kind = entry.partition("\n")[0].partition(" : ")
            if re.match(r"float\b", kind) and not PURE.search(parameter):
                assert re.search(r"\[[^\]]+\]", entry), f"{name}: {entry}"
