"""A formula's tokens, against openpyxl's tokenizer, which goes through it letter by letter."""

import random

import pytest
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.formula.parse import _Parser, parse
from cornerbook.book.formula.tokens import tokens
from cornerbook.book.make.new import made
from openpyxl.formula import Tokenizer
from openpyxl.formula.tokenizer import TokenizerError

from tests.support.looking import looked_into

PIECES = (
    *"(){},;+-*/^&=%<>[]'\"#!:$@?~\\é",
    *(" ", "  ", ">=", "<=", "<>", "SUM(", "IF(", "CORNER.TRAIL(", "_xldudf_CORNER_TRAIL("),
    *("A1", "B$2", "$C3:D4", "1:5", "A:C", "Sheet1!A1", "'My Sheet'!A1:B2", "'it''s'!C3"),
    *("T[Col]", "T[[#All],[x]]", "[1]Sheet!A1", "'[file.xlsx]S'!A1", "Name_1", "a.b"),
    *("1", "2.5", ".5", "1E5", "3e7", '"text"', '"a""b"', "TRUE", "FALSE"),
    *("#N/A", "#REF!", "#DIV/0!", "Sheet1!#REF!", "'x y'!#REF!"),
)


def of_openpyxl(formula):
    try:
        return [(token.type, token.subtype, token.value) for token in Tokenizer(formula).items]
    except (TokenizerError, IndexError):
        return None


def ours(formula):
    try:
        return [(token.type, token.subtype, token.value) for token in tokens(formula)]
    except Trouble:
        return None


def test_any_pieces_in_a_row_have_the_tokens_that_openpyxl_finds():
    chance = random.Random(20)
    formulas = [
        "=" + "".join(chance.choice(PIECES) for _ in range(chance.randint(1, 9)))
        for _ in range(20_000)
    ]
    # A quote behind a colon is nothing that a program writes; openpyxl reads it out of order.
    formulas = [formula for formula in formulas if ':"' not in formula]
    read = 0
    for formula in formulas:
        found = ours(formula)
        assert found == of_openpyxl(formula), formula
        read += found is not None
    assert 0.3 * len(formulas) < read < 0.9 * len(formulas)


@pytest.mark.parametrize("target", ["calc", "excel", "excel-classic"])
def test_the_formulas_of_a_workbook_have_the_tokens_that_openpyxl_finds(target, tmp_path):
    file = tmp_path / "car.xlsx"
    file.write_bytes(made("car", "lapwing", "mm", target, chapters=["set-up"]).content)
    book = looked_into(file)
    formulas = [
        str(getattr(cell.value, "text", cell.value))
        for sheet in book
        for row in sheet.iter_rows()
        for cell in row
        if cell.data_type == "f"
    ]
    assert len(formulas) > 500
    for formula in formulas:
        assert ours(formula) == of_openpyxl(formula)


def test_a_number_with_an_exponent_is_one_token():
    for number in ("1E+5", "1.5e-07", "12E+5", "0.5E-3", ".5e+2"):
        assert ours(f"={number}*2")[0] == ("OPERAND", "NUMBER", number)
    assert [value for _, _, value in ours("=A1E+5")] == ["A1E", "+", "5"]


def test_a_line_break_ends_a_token():
    assert ours("=A1\n+ B1") == [
        ("OPERAND", "RANGE", "A1"),
        ("WHITE-SPACE", "", "\n"),
        ("OPERATOR-INFIX", "", "+"),
        ("WHITE-SPACE", "", " "),
        ("OPERAND", "RANGE", "B1"),
    ]


def test_what_is_no_formula_is_one_token():
    assert ours("text") == of_openpyxl("text")
    assert ours("") == of_openpyxl("") == []


def test_logical_values_are_the_same_as_calc_writes_them():
    assert parse("=IF(FALSE(),TRUE(),1)") == parse("=IF(FALSE,TRUE,1)")


def test_a_formula_of_a_known_shape_has_the_tree_of_its_own_text():
    chance = random.Random(21)
    shapes = 0
    for _ in range(5_000):
        text = "=" + "".join(chance.choice(PIECES) for _ in range(chance.randint(1, 9)))
        for formula in (text, text.replace("A1", "B7").replace("D4", "$E$5")):
            try:
                alone = _Parser(formula).tree()
            except Trouble:
                with pytest.raises(Trouble):
                    parse(formula)
                continue
            assert parse(formula) == alone, formula
            shapes += "B7" in formula
    assert shapes > 100


@pytest.mark.parametrize("formula", ["=A1:INDEX(B1:B9,2)", "=@A1:SUM(B2)", "='A1'!B2:LOG10(C3)"])
def test_an_address_before_the_name_of_a_function_stays(formula):
    assert parse(formula) == _Parser(formula).tree()


def test_a_sum_of_thousands_of_cells_has_a_shape_too():
    one, other = (parse("=" + "+".join([cell] * 3_000)) for cell in ("A1", "B2"))
    while one[0] == "infix":
        assert (one[1], one[3], other[3]) == ("+", ("reference", "A1"), ("reference", "B2"))
        one, other = one[2], other[2]
    assert (one[1], other[1]) == ("A1", "B2")
