"""Every chapter of ours: what its head says it needs is what its formulas use, and is enough."""

import functools
import io

import pytest
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.formula.parse import parse
from cornerbook.book.make.build import build
from cornerbook.book.make.sheet import choices
from cornerbook.book.make.templates.chapter import Chapter
from cornerbook.book.make.templates.template import Template
from cornerbook.book.make.texts.places import find, names_in, workbooks
from cornerbook.book.make.texts.scenario import Scenario
from cornerbook.book.make.written.write import to_xlsx

from tests.support.looking import looked_into

NAMES = names_in("chapters")

# Straight ahead there is no inner wheel; the first cell of such a row, the rack, is 0.
NO_INNER_WHEEL = "#N/A"


@functools.cache
def chapter(name):
    return Chapter(find("chapters", name))


def listed(name):
    """The chapters that this one needs, and theirs, in an order that their needs allow."""
    order = []

    def add(name):
        if name not in order:
            for need in chapter(name).needs:
                add(need)
            order.append(name)

    add(name)
    for each in order:
        for need in chapter(each).needs_anywhere:
            add(need)
    return order


def template_of(folder, chapters):
    path = folder / "alone.toml"
    names = ", ".join(f'"{name}"' for name in chapters)
    path.write_text(f'title = "Alone"\nchapters = [{names}]\n', encoding="utf-8")
    return Template(path)


@pytest.fixture(scope="module")
def alone(tmp_path_factory):
    """A function of a chapter's name: the template of what it needs, and the `Book` made of it."""
    scenario = Scenario(find("scenarios", "lapwing"))

    @functools.cache
    def run(name):
        template = template_of(tmp_path_factory.mktemp("alone"), listed(name))
        return template, build(template, scenario, pictures=workbooks() / "pictures")

    return run


def references(tree):
    """The text of every reference in a formula's tree."""
    if isinstance(tree, tuple) and tree and tree[0] == "reference":
        yield tree[1]
    elif isinstance(tree, (tuple, list)):
        for part in tree:
            yield from references(part)


def sheets_used(book, sheet):
    """Names of the sheets that a sheet's formulas and charts refer to, by name or by cells."""
    named = {name.lower(): place[0].name for name, place in book.names.items()}
    formulas = {cell.formula for cell in sheet.cells.values() if cell.formula is not None}
    formulas |= {cell.array.formula for cell in sheet.cells.values() if cell.array is not None}
    for formula in formulas:
        for reference in references(parse(formula)):
            if reference.lower() in named:
                yield named[reference.lower()]
            elif "!" in reference:
                yield reference.rsplit("!", 1)[0].strip("'").replace("''", "'")
    for chart in sheet.charts:
        yield chart.x[0]
        for _, *ranges in chart.ys:
            yield from (each[0] for each in ranges)


def chapters_used(template, book):
    """{chapter: the other chapters whose names, cells or tables its sheets use}."""
    home = {sheet["name"]: each.name for each in template.chapters for sheet in each.sheets}
    used = {each.name: set() for each in template.chapters}
    for sheet in book.sheets:
        if sheet.name != choices.SHEET:
            # What drop-downs offer stands on a sheet that the generator adds by itself.
            others = sheets_used(book, sheet)
            used[home[sheet.name]] |= {home[o] for o in others if o != choices.SHEET}
    return {name: others - {name} for name, others in used.items()}


@pytest.mark.parametrize("name", NAMES)
def test_it_needs_what_it_says_and_no_more(alone, name):
    used = chapters_used(*alone(name))
    assert used[name] == {*chapter(name).needs, *chapter(name).needs_anywhere}


@pytest.mark.parametrize("name", NAMES)
def test_with_what_it_needs_it_makes_a_workbook_alone(alone, name):
    template, book = alone(name)
    made = looked_into(io.BytesIO(to_xlsx(book)), data_only=True)
    listed = {s["name"] for each in template.chapters for s in each.sheets}
    assert set(made.sheetnames) - {choices.SHEET} == listed
    for sheet in made:
        for row in sheet.iter_rows():
            for cell in row:
                if isinstance(cell.value, str) and cell.value.startswith("#"):
                    assert cell.value == NO_INNER_WHEEL, (sheet.title, cell.coordinate, cell.value)
                    assert sheet.cell(cell.row, 1).value == 0, (sheet.title, cell.coordinate)


@pytest.mark.parametrize(
    ("name", "need"),
    [(n, need) for n in NAMES for need in (*chapter(n).needs, *chapter(n).needs_anywhere)],
)
def test_none_of_its_needs_can_be_left_out(tmp_path, name, need):
    """Without it the list is refused, in a sentence that names it and one that needs it."""
    rest = [each for each in listed(name) if each != need]
    with pytest.raises(Trouble, match=f'needs the chapter "{need}", which is not in') as problem:
        template_of(tmp_path, rest)
    # Another that needs it too is named first where it stands above.
    (blamed,) = [each for each in rest if f'the chapter "{each}" needs' in str(problem.value)]
    assert need in {*chapter(blamed).needs, *chapter(blamed).needs_anywhere}


@pytest.mark.parametrize("name", ["car"])
def test_a_template_of_ours_is_a_list_of_chapters(name):
    template = Template(find("templates", name))
    assert len(template.chapters) > 5
    assert template.parts == template.chapters


def test_each_says_what_it_shows_in_a_line():
    for name in NAMES:
        assert chapter(name).about.endswith("."), name
        assert "\n" not in chapter(name).about, name


A = """about = "Gives a number and a table."
gives = ["Given"]
tables = ["run"]

[[sheet]]
name = "It's A"

[[sheet.block]]
kind = "inputs"
rows = [{ label = "Given", name = "Given", value = 2, kind = "length" }]

[[sheet.block]]
kind = "series"
name = "run"
over = "it"
kind_over = "length"
start = "0"
end = "Given"
points = 3
columns = [{ title = "twice", kind = "length", formula = "=2*{x}" }]
"""

USING = {
    "a name": 'kind = "results"\ncolumns = ["now"]\nrows = [{ label = "It", kind = "length", '
    'formula = "=IF(1>0,given+1,0)" }]',
    "a table's cells": 'kind = "results"\ncolumns = ["now"]\nrows = [{ label = "It", '
    'kind = "length", formula = "=MAX({run:twice})" }]',
    "a table's run": 'kind = "series"\nname = "b"\nover = "it"\nkind_over = "length"\n'
    'like = "run"\ncolumns = []',
    "a chart": 'kind = "chart"\ntable = "run"\ntitle = "Twice"\nquantities = ["twice"]',
    "a grid": 'kind = "grid"\nformula = "=Given"\nrows = 1\ncolumns = 1\nunit = "length"',
    "nothing": 'kind = "text"\nlines = ["Given, 2*Given, on the sheet A"]',
}


@pytest.mark.parametrize("what", USING)
def test_what_is_used_is_seen(tmp_path, what):
    """The reading of uses itself, on a chapter that says nothing of its needs."""
    tables = {"a table's run": 'tables = ["b"]\n', "a grid": 'tables = ["grid"]\n'}.get(what, "")
    b = f'about = "B."\n{tables}\n[[sheet]]\nname = "B"\n\n[[sheet.block]]\n{USING[what]}\n'
    for name, text in (("a", A), ("b", b)):
        (tmp_path / (name + ".toml")).write_text(text, encoding="utf-8")
    template = template_of(tmp_path, ["a.toml", "b.toml"])
    book = build(template, Scenario(find("scenarios", "lapwing")))
    expected = set() if what == "nothing" else {"a"}
    assert chapters_used(template, book) == {"a": set(), "b": expected}
