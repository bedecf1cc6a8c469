# SPDX-License-Identifier: Apache-2.0
"""Every public function says what goes in, in which unit, and what comes out."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from numpydoc.docscrape import NumpyDocString

SRC = Path(__file__).parent.parent / "src" / "linewright"

Function = ast.FunctionDef | ast.AsyncFunctionDef


def _is_kernel(node: Function) -> bool:
    """Compiled kernels and the heads of overloads say in a sentence what they do: see kernels."""
    names = {ast.unparse(d).split("(")[0] for d in node.decorator_list}
    return bool(names & {"njit", "overload"})


def _public_functions() -> Iterator[tuple[str, Function, bool]]:
    for path in sorted(SRC.rglob("*.py")):
        if "cli" in path.parts:
            continue  # commands are described by their help, tested in test_docs
        module = ".".join(path.relative_to(SRC.parent).with_suffix("").parts)
        if any(part.startswith("_") for part in module.split(".")):
            continue
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, Function) and ast.unparse(node).startswith("@overload"):
                continue  # only its head: the function itself is described
            if isinstance(node, Function) and not node.name.startswith("_"):
                yield f"{module}.{node.name}", node, False
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                for item in node.body:
                    if isinstance(item, Function) and not item.name.startswith("_"):
                        yield f"{module}.{node.name}.{item.name}", item, True


def _name(value: object) -> str:
    return value if isinstance(value, str) else "-"


FUNCTIONS = list(_public_functions())
PLAIN = [(name, n) for name, n, is_method in FUNCTIONS if not is_method and not _is_kernel(n)]


def _parsed(node: Function) -> NumpyDocString:
    return NumpyDocString(ast.get_docstring(node) or "")


def _parameters(node: Function) -> list[str]:
    spec = node.args
    names = [a.arg for a in (*spec.posonlyargs, *spec.args, *spec.kwonlyargs)]
    names += [f"*{spec.vararg.arg}"] if spec.vararg else []
    names += [f"**{spec.kwarg.arg}"] if spec.kwarg else []
    return names


@pytest.mark.parametrize(("name", "node"), [(n, f) for n, f, _ in FUNCTIONS], ids=_name)
def test_public_functions_and_methods_have_a_docstring(name: str, node: Function) -> None:
    assert ast.get_docstring(node), f"{name} has no docstring"


@pytest.mark.parametrize(("name", "node"), PLAIN, ids=_name)
def test_parameters_are_those_of_the_signature(name: str, node: Function) -> None:
    described = [part.strip() for p in _parsed(node)["Parameters"] for part in p.name.split(",")]

    assert described == _parameters(node), name


@pytest.mark.parametrize(("name", "node"), PLAIN, ids=_name)
def test_numbers_say_their_unit(name: str, node: Function) -> None:
    sections = _parsed(node)
    numbers = [
        p
        for section in ("Parameters", "Returns")
        for p in sections[section]
        if re.fullmatch(r"float( \| None)?(, optional)?", p.type)
    ]

    assert all(re.search(r"\[[^\]]+\]$", " ".join(p.desc).strip()) for p in numbers), name


@pytest.mark.parametrize(("name", "node"), PLAIN, ids=_name)
def test_what_is_returned_and_raised_is_listed(name: str, node: Function) -> None:
    sections = _parsed(node)
    raised = {
        getattr(r.exc.func if isinstance(r.exc, ast.Call) else r.exc, "id", "")
        for r in ast.walk(node)
        if isinstance(r, ast.Raise) and r.exc is not None
    }
    raised = {r for r in raised if r[:1].isupper()}
    returns_nothing = isinstance(node.returns, ast.Constant) and node.returns.value is None
    described = {word for p in sections["Raises"] for word in re.split(r"[,\s]+", p.type or p.name)}

    assert returns_nothing or sections["Returns"] or sections["Yields"], name
    assert raised <= described, name
