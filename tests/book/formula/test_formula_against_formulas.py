"""The generator's small evaluator held to the PyPI package `formulas`, another engine."""

import formulas
import pytest
from cornerbook.book.file.cell_error import CellError
from cornerbook.book.formula.evaluate import Evaluator
from cornerbook.book.formula.functions import every_function
from cornerbook.book.formula.parse import parse
from cornerbook.book.formula.ranges import Range
from schedula import EMPTY

from tests.support.ordinary import FORMULAS

CELLS = {"A1": 2.0, "A2": -3.5, "A3": "pass", "A4": None, "A5": 0.25, "A6": "Look here"}

EXPRESSIONS = [
    "=1+2*3-4/8",
    "=-2^2",
    "=2^3^2",
    "=(A1+A2)*A5",
    "=A1%+1",
    '="a"&A1&"b"',
    "=A1>=2",
    "=A1<>A2",
    '=A3="PASS"',
    '=A3<"zebra"',
    '=IF(A1>1,IF(A2>0,"x","y"),"z")',
    "=IF(A1>5,1,A1+A2*2)",
    "=AND(A1>1,A2<0)",
    "=OR(A1>5,A2>0)",
    "=NOT(A1>5)",
    "=ABS(A2)+MAX(A1,A2,7)-MIN(A1:A2)",
    "=SUM(A1:A5)",
    "=COUNT(A1:A6)",
    "=COUNTA(A1:A6)",
    '=COUNTIF(A1:A6,"pass")',
    "=AVERAGE(A1:A2)",
    "=ISNUMBER(A3)",
    "=ISTEXT(A3)",
    "=ISERROR(1/0)",
    "=IFERROR(1/0,7)",
    "=SQRT(A1)*PI()",
    "=ROUND(A2,0)+ROUND(A5*A1,1)",
    "=SUMPRODUCT(A1:A2)",
    "=INT(A2)+MOD(A2,2)",
    "=SIGN(A2)*TAN(RADIANS(A1))+SIN(A1)*COS(A5)",
    "=MATCH(-3.5,A1:A2,0)",
]


def rows_of(reference):
    first, _, last = reference.partition(":")
    last = last or first
    return tuple((CELLS["A%d" % r],) for r in range(int(first[1:]), int(last[1:]) + 1))


class Column:
    """The cells above, for our evaluator."""

    def meaning(self, reference, _):
        first, _, last = reference.partition(":")
        return Range(self, ("S", int(first[1:]) - 1, 0, int((last or first)[1:]) - 1, 0))

    def rows(self, place):
        return rows_of("A%d:A%d" % (place[1] + 1, place[3] + 1))


def worked_out(expression):
    """Our value of an expression, in a cell far away."""
    return Evaluator(Column()).value(parse(expression), ("S", 99, 9))


def by_formulas(expression):
    compiled = formulas.Parser().ast(expression)[1].compile()
    arguments = []
    for name in compiled.inputs:
        cells = [[EMPTY if v is None else v] for (v,) in rows_of(name)]
        arguments.append(cells if ":" in name else cells[0][0])
    value = compiled(*arguments)
    return value.tolist() if hasattr(value, "tolist") else value


def single(value):
    while isinstance(value, list):
        (value,) = value
    return value


@pytest.mark.parametrize("expression", EXPRESSIONS)
def test_same_value(expression):
    ours = worked_out(expression)
    other = single(by_formulas(expression))
    if isinstance(other, float) or isinstance(ours, float):
        assert ours == pytest.approx(float(other), rel=1e-12)
    else:
        assert str(ours).lower() == str(other).lower()


def test_errors_pass_through():
    value = worked_out("=1/0+A1")
    assert isinstance(value, CellError)
    assert value.code == "#DIV/0!"


def test_every_function_is_tried_above_or_in_calc():
    tried = "".join(EXPRESSIONS + FORMULAS)
    assert {name for name in every_function() if name + "(" not in tried} == set()


def test_index_of_a_match():
    """INDEX undoes MATCH (the other engine knows no INDEX of plain lists)."""
    for row in (1, 2, 3, 5, 6):
        value = CELLS["A%d" % row]
        assert worked_out("=INDEX(A1:A6,MATCH(A%d,A1:A6,0))" % row) == value
    assert worked_out("=MATCH(99,A1:A6,0)").code == "#N/A"
    assert worked_out("=INDEX(A1:A6,7)").code == "#REF!"
