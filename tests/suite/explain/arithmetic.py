"""A small reckoner for the expressions of reasons: exact, and open to nothing but arithmetic."""

import ast
from fractions import Fraction
from math import ceil, floor, isqrt

OPERATORS = {
    ast.Add: lambda a, b: a + b,
    ast.Sub: lambda a, b: a - b,
    ast.Mult: lambda a, b: a * b,
    ast.Div: lambda a, b: a / b,
}
FUNCTIONS = {"floor": floor, "ceil": ceil, "mod": lambda a, b: a % b, "min": min, "max": max}
FUNCTIONS |= {"power": lambda base, times: base ** floor(times), "root": lambda value: isqrt(floor(value))}


def reckon(expression):
    """Give the exact value of an expression."""
    return _value(ast.parse(expression, mode="eval").body)


def _value(node):
    match node:
        case ast.Constant(value=int(value)):
            return Fraction(value)
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return -_value(operand)
        case ast.BinOp(left=left, op=op, right=right):
            return OPERATORS[type(op)](_value(left), _value(right))
        case ast.Call(func=ast.Name(id=name), args=arguments):
            return Fraction(FUNCTIONS[name](*map(_value, arguments)))
    raise ValueError(ast.dump(node))
