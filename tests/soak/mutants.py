"""Small faults to put into a module, one at a time: what a slip of the hand would write.

Comparisons (boundary and sense), sums and products, constants, and/or/not, true/false, min/max and
their like, a value that is not returned. Texts, annotations and docstrings stay as they are: a
wording is no fault, and mypy sees the rest. The operators are those of the usual catalogue
(Offutt and others, "An Experimental Determination of Sufficient Mutant Operators", 1996).
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterator
from functools import partial
from typing import NamedTuple

BOUNDARY: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt,
}  # fmt: skip
SENSE: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.GtE, ast.LtE: ast.Gt, ast.Gt: ast.LtE, ast.GtE: ast.Lt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.In: ast.NotIn, ast.NotIn: ast.In,
}  # fmt: skip
SUMS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Div,
    ast.Mod: ast.FloorDiv, ast.Pow: ast.Mult,
}  # fmt: skip
CALLS = {
    "min": "max", "max": "min", "ceil": "floor", "floor": "ceil", "any": "all", "all": "any",
    "bisect_left": "bisect_right", "bisect_right": "bisect_left", "cos": "sin", "sin": "cos",
}  # fmt: skip

TINY = 1e-3
"""A smaller constant is a tolerance: a little more or less of it is no fault, a thousand times is one."""


class Mutant(NamedTuple):
    """One fault.

    Attributes:
        first, last: the lines it stands in.
        what: the line it begins in, what was written there, and what instead; no two of a module are alike.
        source: the whole module with it.
    """

    first: int
    last: int
    what: str
    source: str


def mutants_of(source: str) -> Iterator[Mutant]:
    """Every mutant of a module, in the order of its lines."""
    tree = ast.parse(source)
    lines = ["", *source.splitlines()]
    times: dict[str, int] = {}
    for holder, name, place, node in _nodes(tree):
        for change in _changes(node):
            before = ast.unparse(node)
            after = change()
            if after is None:
                continue
            _put(holder, name, place, after)
            mutated, shown = ast.unparse(tree), ast.unparse(after)
            _put(holder, name, place, node)
            first = getattr(node, "lineno", 0)
            last = getattr(node, "end_lineno", None) or first
            what = f"{_short(lines[first])}: {_short(before)} → {_short(shown)}"
            times[what] = times.get(what, 0) + 1
            yield Mutant(first, last, what if times[what] == 1 else f"{what} ({times[what]})", mutated)


def _short(text: str) -> str:
    one_line = " ".join(text.split())
    return one_line if len(one_line) <= 70 else one_line[:69] + "…"


def _put(holder: ast.AST, name: str, place: int | None, node: ast.AST) -> None:
    if place is None:
        setattr(holder, name, node)
    else:
        getattr(holder, name)[place] = node


_UNSEEN = {"annotation", "returns", "decorator_list", "type_comment"}


def _nodes(node: ast.AST) -> Iterator[tuple[ast.AST, str, int | None, ast.AST]]:
    """Every node below with where it hangs; nothing of annotations, texts put together and type names."""
    for name, value in ast.iter_fields(node):
        if name in _UNSEEN:
            continue
        for place, child in enumerate(value) if isinstance(value, list) else [(None, value)]:
            if not isinstance(child, ast.AST) or isinstance(child, ast.JoinedStr) or _is_typing(child):
                continue
            yield node, name, place, child
            yield from _nodes(child)


def _is_typing(node: ast.AST) -> bool:
    if isinstance(node, ast.If):
        return ast.unparse(node.test) == "TYPE_CHECKING"
    return isinstance(node, ast.Subscript) and ast.unparse(node.value) in {"Literal", "tuple", "dict", "list"}


_Change = Callable[[], ast.AST | None]


def _changes(node: ast.AST) -> Iterator[_Change]:
    if isinstance(node, ast.Compare):
        yield from _comparisons(node)
    elif isinstance(node, ast.BinOp | ast.AugAssign):
        yield from _sums(node)
    elif isinstance(node, ast.BoolOp):
        yield lambda: ast.BoolOp(ast.And() if isinstance(node.op, ast.Or) else ast.Or(), node.values)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not | ast.USub):
        yield lambda: node.operand
    elif isinstance(node, ast.Constant):
        yield from _constants(node.value)
    elif isinstance(node, ast.Return) and node.value is not None and ast.unparse(node.value) != "None":
        yield lambda: ast.Return(ast.Constant(None))
    elif isinstance(node, ast.Call):
        yield lambda: _other_call(node)
    elif isinstance(node, ast.If | ast.IfExp | ast.While) and not isinstance(node.test, ast.Compare | ast.UnaryOp):
        yield lambda: _negated(node)
    elif isinstance(node, ast.Break | ast.Continue):
        yield ast.Continue if isinstance(node, ast.Break) else ast.Break


def _comparisons(node: ast.Compare) -> Iterator[_Change]:
    def with_operator(place: int, operator: ast.cmpop) -> ast.AST:
        return ast.Compare(node.left, [*node.ops[:place], operator, *node.ops[place + 1 :]], node.comparators)

    for place, operator in enumerate(node.ops):
        for table in (BOUNDARY, SENSE):
            if type(operator) in table:
                yield partial(with_operator, place, table[type(operator)]())


def _sums(node: ast.BinOp | ast.AugAssign) -> Iterator[_Change]:
    if type(node.op) not in SUMS or _joins_texts(node):
        return
    other = SUMS[type(node.op)]()
    if isinstance(node, ast.BinOp):
        yield lambda: ast.BinOp(node.left, other, node.right)
    else:
        yield lambda: ast.AugAssign(node.target, other, node.value)


def _negated(node: ast.If | ast.IfExp | ast.While) -> ast.AST:
    test = ast.UnaryOp(ast.Not(), node.test)
    if isinstance(node, ast.IfExp):
        return ast.IfExp(test, node.body, node.orelse)
    return (ast.If if isinstance(node, ast.If) else ast.While)(test, node.body, node.orelse)


def _constants(value: object) -> Iterator[_Change]:
    if isinstance(value, bool):
        yield lambda: ast.Constant(not value)
    elif isinstance(value, int):
        yield lambda: ast.Constant(value + 1)
        if value > 1:
            yield lambda: ast.Constant(value - 1)
    elif isinstance(value, float):
        yield lambda: ast.Constant(value * 1000 if 0 < value < TINY else value * 1.05 if value else 1.0)


def _joins_texts(node: ast.BinOp | ast.AugAssign) -> bool:
    sides = (node.left, node.right) if isinstance(node, ast.BinOp) else (node.value,)
    return any(
        isinstance(side, ast.JoinedStr) or (isinstance(side, ast.Constant) and isinstance(side.value, str))
        for side in sides
    )


def _other_call(node: ast.Call) -> ast.Call | None:
    if isinstance(node.func, ast.Name) and node.func.id in CALLS:
        # A name that the module may not have imported would be a fault nobody can miss.
        if node.func.id in {"min", "max", "any", "all"}:
            return ast.Call(ast.Name(CALLS[node.func.id]), node.args, node.keywords)
        module = {"c": "math", "f": "math", "b": "bisect", "s": "math"}[node.func.id[0]]
        home = ast.Call(ast.Name("__import__"), [ast.Constant(module)], [])
        return ast.Call(ast.Attribute(home, CALLS[node.func.id]), node.args, node.keywords)
    if isinstance(node.func, ast.Attribute) and node.func.attr in CALLS:
        return ast.Call(ast.Attribute(node.func.value, CALLS[node.func.attr]), node.args, node.keywords)
    return None
