"""Arithmetic written as text, such as `floor({heel} / 4) * 2`: exact, and the same that explanations print.

`{name}` stands for a number; there are `+ - * /`, brackets, and `floor`, `ceil`, `mod`, `min`, `max`,
`power`; `doublings`: how often 1 is doubled without passing a number; `root`: the whole square root below a number.
"""

from __future__ import annotations

import ast
import operator
from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import cache
from math import ceil, floor, isqrt

Values = Mapping[str, Fraction]
_Reckoned = Callable[[Values], Fraction]

_OPERATORS: dict[type[ast.operator], Callable[[Fraction, Fraction], Fraction]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}
_CALLS: dict[str, Callable[..., Fraction]] = {
    "floor": lambda value: Fraction(floor(value)),
    "ceil": lambda value: Fraction(ceil(value)),
    "mod": lambda value, modulus: value % modulus,
    "min": min,
    "max": max,
    "power": lambda base, times: base ** floor(times),
    "root": lambda value: Fraction(isqrt(floor(value))),
    "doublings": lambda value: Fraction(floor(value).bit_length() - 1),
}


def reckon(formula: str, values: Values) -> Fraction:
    """Give the exact value of a formula.

    Raises:
        KeyError: it names a number that is not there.
    """
    return _compiled(formula)(values)


def names(formula: str) -> tuple[str, ...]:
    """Give the names in a formula, each once, in order."""
    tree = ast.walk(_parsed(formula))
    return tuple(dict.fromkeys(one.id for one in tree if isinstance(one, ast.Name) and one.id not in _CALLS))


def _parsed(formula: str) -> ast.expr:
    return ast.parse(formula.replace("{", " ").replace("}", " ").strip(), mode="eval").body


@cache
def _compiled(formula: str) -> _Reckoned:
    return _of(_parsed(formula))


def _of(node: ast.expr) -> _Reckoned:
    match node:
        case ast.Constant(value=int(number)):
            fixed = Fraction(number)
            return lambda values: fixed
        case ast.Name(id=name):
            return lambda values: values[name]
        case ast.UnaryOp(op=ast.USub(), operand=value):
            minus = _of(value)
            return lambda values: -minus(values)
        case ast.BinOp(left=left, op=sign, right=right):
            act, one, other = _OPERATORS[type(sign)], _of(left), _of(right)
            return lambda values: act(one(values), other(values))
        case ast.Call(func=ast.Name(id=called), args=given):
            call, parts = _CALLS[called], [_of(one) for one in given]
            return lambda values: call(*(part(values) for part in parts))
    raise ValueError(f"no arithmetic: {ast.dump(node)}")
