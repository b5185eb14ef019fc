"""Formulas that ask first: what is worked out is what is written, and texts are not passed over."""

import pytest
from cornerbook.book.formula.parse import nodes, parse
from cornerbook.book.make import build
from cornerbook.book.make.formulas.asking import PASSED_BY, ask_first
from cornerbook.book.make.formulas.computing import compute
from cornerbook.book.make.formulas.holding import wrong_formulas
from cornerbook.book.make.formulas.references import References
from cornerbook.book.make.new import make
from cornerbook.book.make.sheet.model import Book, Sheet, Typed

ORDER = frozenset(("<", ">", "<=", ">="))
PASS_OVER_TEXTS = frozenset(("MAX", "MIN", "SUM", "AVERAGE"))


@pytest.fixture(scope="module")
def asked():
    """(the book, its references, the trees) of the first template, once its formulas ask."""
    seen = []

    def ask_first(book, references):
        seen.append((book, references, given(book, references)))
        return seen[-1][-1]

    given = build.ask_first
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(build, "ask_first", ask_first)
        make()
    return seen[-1]


def formulas(asked):
    """(sheet, place, cell, tree) of every formula that asks."""
    book, _, trees = asked
    for sheet in book.sheets:
        for place, cell in sheet.cells.items():
            tree = trees.get((sheet.name, *place))
            if tree is not None and cell.look not in PASSED_BY:
                yield sheet, place, cell, tree


def calls(tree, names):
    return [node for node in nodes(tree) if node[0] == "call" and node[1] in names]


def test_the_trees_are_those_of_the_texts(asked):
    """The generator works with trees that it put together; a program reads the texts."""
    seen = []
    for sheet, place, cell, tree in formulas(asked):
        assert parse(cell.formula) == tree, (sheet.name, place)
        seen.append(cell.formula)
    for begins in ("=IF(ISNUMBER(", "=IFERROR("):
        assert sum(formula.startswith(begins) for formula in seen) > 100


def test_the_largest_of_a_table_asks_whether_every_row_has_a_number(asked):
    """MAX and its like pass over sentences, and give 0 of nothing else: COUNT is asked."""
    _, references, _ = asked
    looked_at, wrong = 0, []
    for sheet, place, cell, tree in formulas(asked):
        counted = [part for node in calls(tree, {"COUNT"}) for part in node[2]]
        for node in calls(tree, PASS_OVER_TEXTS):
            for part in node[2]:
                if part[0] != "reference":
                    continue
                where, top, left, bottom, right = references.block(part[1], sheet)
                rows, columns = range(top, bottom + 1), range(left, right + 1)
                cells = [where.cells.get((y, x)) for y in rows for x in columns]
                if len(cells) < 2 or not any(one and one.formula for one in cells):
                    continue
                looked_at += 1
                if part not in counted:
                    wrong.append((sheet.name, place, cell.formula))
    assert looked_at > 50
    assert wrong == []


def test_what_is_compared_is_asked_for(asked):
    """A text is more than any number to a program, so a sentence would be taken for a large one."""
    looked_at, wrong = 0, []
    for sheet, place, cell, tree in formulas(asked):
        questions = [part for node in calls(tree, {"ISNUMBER"}) for part in node[2]]
        for node in nodes(tree):
            if node[0] == "infix" and node[1] in ORDER:
                ours = [p for p in node[2:] if p[0] == "call" and p[1].startswith("CORNER.")]
                looked_at += len(ours)
                wrong += [(sheet.name, place, cell.formula) for p in ours if p not in questions]
    assert looked_at
    assert wrong == []


def test_a_point_of_a_sweep_that_a_result_picks_is_not_shown_as_an_error(asked):
    _, references, _ = asked
    looked_at, wrong = 0, []
    for sheet, place, cell, tree in formulas(asked):
        if cell.look.startswith("table"):
            continue  # where a point may be #N/A
        for node in calls(tree, {"INDEX"}):
            points = node[2][0]
            if points[0] != "reference":
                continue
            where, top, left, bottom, right = references.block(points[1], sheet)
            rows, columns = range(top, bottom + 1), range(left, right + 1)
            cells = [where.cells.get((y, x)) for y in rows for x in columns]
            if any(one and "CORNER.IN_ROLL(" in str(one.formula) for one in cells):
                looked_at += 1
                if not calls(tree, {"IFERROR", "COUNT"}):
                    wrong.append((sheet.name, place, cell.formula))
    assert looked_at
    assert wrong == []


@pytest.mark.parametrize(
    "formula, value",
    [
        ("=(IF(A1>0,1/A1,2))", 0.5), ("=IF(A1>0,1/A1,)", 0.5), ("=IF(,1/A1,2)", 2.0),
        ("=1+IF(,1/A1,2)", 3.0), ("=A1*-IF(,A1,2)", -4.0), ("=1+IF(IF(,A1,2),IF(A1,,7),3)", 1.0),
        ("=A1+IFERROR(1/0,)", 2.0), ("=SUM(IF(,A1:A2,2),A1)", 4.0), ("=ROUND(A1/3,)", 1.0),
        ("=A1+IF(ISNUMBER(A1),,3)", 2.0), ("=1+INDEX(A1:A1,)", 3.0),
    ],
)  # fmt: skip
def test_brackets_and_parts_left_out_are_no_fault(formula, value):
    """What is left out counts as nothing: as FALSE where it is asked, else as 0."""
    book, sheet = Book("mine"), Sheet("Mine")
    book.sheets.append(sheet)
    sheet.put(0, 0, value=2.0, look="input").typed = Typed(("a",), None, "number")
    cell = sheet.put(0, 1, formula=formula)
    references = References(book)
    assert not list(wrong_formulas(book, references, lambda _: False))
    trees = ask_first(book, references)
    assert formula[1:-1] in cell.formula or cell.formula.startswith("=IF(ISNUMBER(A1)")
    compute(book, references, trees)
    assert cell.value == pytest.approx(value)
