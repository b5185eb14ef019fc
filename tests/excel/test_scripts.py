"""The scripts for an open workbook, with stand-ins for a workbook in Excel and in Lite."""

import asyncio
import os
import subprocess
import sys
import types
import zipfile
from pathlib import Path
from unittest.mock import MagicMock

import openpyxl
import pytest
from cornerbook import scripts
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.plain.share import share
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE

from tests.excel.test_classic import vba_of
from tests.excel.windows_stand_in import classic_xlwings
from tests.excel.xlwings_parts import server, xlwings
from tests.support.looking import looked_into
from tests.support.patience import HANGING
from tests.support.workbooks import notes_and_block

CELLS = [[None if cell == "" else cell for cell in row] for row in EXAMPLE]


def named(name, cells):
    """A name of a workbook that stands for cells."""
    found = MagicMock()
    found.name = name
    found.refers_to_range.options.return_value.value = cells
    return found


class AppOnWindows:
    def __init__(self):
        self.api = MagicMock(spec=["CalculateFull"])
        self.alerts = []

    def alert(self, text, title):
        self.alerts.append(text)


class BookOnWindows:
    """A workbook that is open in Excel, with changes that are not saved yet."""

    def __init__(self, path, unsaved=None, names=()):
        self.app, self.names = AppOnWindows(), list(names)
        self.name, self.fullname = path.name, str(path)
        self.api = types.SimpleNamespace(SaveCopyAs=self._save_copy)
        self.unsaved = unsaved

    def _save_copy(self, where):
        Path(where).write_bytes(self.unsaved or Path(self.fullname).read_bytes())


class BookOnMac(BookOnWindows):
    def __init__(self, path, names=()):
        super().__init__(path, names=names)
        self.api = object()
        self.app.api = object()
        self.app.calculate = MagicMock()


def book_in_lite(names=()):
    """A workbook as xlwings Lite makes it, with the example block on its sheet."""
    values = [["" if cell is None else cell for cell in row] for row in CELLS]
    entries = [
        {"name": name, "sheet_index": 0, "address": address, "book_scope": True,
         "scope_sheet_name": None, "scope_sheet_index": None}
        for name, address in names
    ]  # fmt: skip
    sheet = {"name": "Sheet1", "values": values, "tables": [], "pictures": []}
    return xlwings.Book(
        json={
            "client": "Office.js", "version": xlwings.__version__, "names": entries,
            "book": {"name": "car.xlsx", "active_sheet_index": 0, "selection": "A1"},
            "sheets": [sheet],
        }
    )  # fmt: skip


@pytest.fixture
def car(tmp_path):
    """A workbook with a call: a button does with it what it does with many sheets."""
    return notes_and_block(tmp_path / "car.xlsx", {"A1": "=CORNER.TRAIL(Front)", "A2": "=A1*2"})


# Refresh


def test_refresh_works_out_everything_on_windows(car):
    book = BookOnWindows(car)
    scripts.refresh(book)
    book.app.api.CalculateFull.assert_called_once_with()


def test_refresh_on_macos(car):
    book = BookOnMac(car)
    scripts.refresh(book)
    book.app.calculate.assert_called_once_with()


def test_refresh_in_lite():
    book = book_in_lite()
    scripts.refresh(book)
    assert [action["func"] for action in book.json()["actions"]] == ["calculate"]


# Share


@pytest.mark.parametrize("kind", [BookOnWindows, BookOnMac])
def test_the_shared_copy_is_the_one_of_the_command(car, kind):
    before = car.read_bytes()
    said = scripts.share(kind(car))
    copy = car.with_name("car shared.xlsx")
    assert copy.read_bytes() == share(car)[0]
    assert b"CORNER.TRAIL" not in zipfile.ZipFile(copy).read("xl/worksheets/sheet1.xml")
    assert str(copy) in said[-1]
    assert car.read_bytes() == before
    assert sorted(p.name for p in car.parent.iterdir()) == ["car shared.xlsx", "car.xlsx"]


def test_the_shared_copy_has_what_is_not_saved_yet(car):
    book = openpyxl.Workbook()
    book.active["A1"] = "not saved yet"
    book.save(car.with_name("unsaved.xlsx"))
    unsaved = car.with_name("unsaved.xlsx").read_bytes()
    scripts.share(BookOnWindows(car, unsaved))
    copy = looked_into(car.with_name("car shared.xlsx"))
    assert copy.active["A1"].value == "not saved yet"


def test_an_earlier_copy_is_kept(car):
    scripts.share(BookOnWindows(car))
    first = car.with_name("car shared.xlsx").read_bytes()
    said = scripts.share(BookOnWindows(car))
    assert "car shared 2.xlsx" in said[-1]
    assert car.with_name("car shared.xlsx").read_bytes() == first


@pytest.mark.parametrize("where", ["Book1", "https://somewhere.example/car.xlsx"])
def test_a_workbook_without_a_folder(car, where):
    book = BookOnWindows(car)
    book.fullname = where
    with pytest.raises(Trouble, match="save it there first"):
        scripts.share(book)


def test_share_in_lite_says_what_to_do_instead(monkeypatch):
    monkeypatch.setattr(scripts, "in_lite", lambda: True)
    with pytest.raises(Trouble, match="run, on a computer with Python: cornerbook share"):
        scripts.share(book_in_lite())


# Blocks


def names():
    broken = MagicMock()
    broken.name = "Gone"
    type(broken).refers_to_range = property(lambda self: 1 / 0)
    other = named("Speed", [[12.0]])
    return [broken, other, named("Front", CELLS), named("Sheet1!Rear", CELLS[1:])]


def test_check_speaks_of_each_block(car):
    said = scripts.check(BookOnWindows(car, names=names()))
    assert said[0] == "Front: ok"
    assert said[1].startswith("Sheet1!Rear: # the row") and "wheel centre" in said[1]
    assert len(said) == 2


def test_check_without_a_block(car):
    with pytest.raises(Trouble, match="such as Front"):
        scripts.check(BookOnWindows(car))


def test_check_in_lite():
    assert scripts.check(book_in_lite([("Front", "A1:D12")])) == ["Front: ok"]


@pytest.mark.parametrize("name", ["Front", "front"])
def test_a_block_as_a_frame(car, name):
    frame = scripts.frame(BookOnWindows(car, names=names()), name)
    assert list(frame.columns) == ["x", "y", "z"]
    assert list(frame.index) == [row[0] for row in EXAMPLE]
    assert list(frame.loc["Lower ball joint"]) == [6.0, 510.0, 150.0]
    assert frame.loc["Tyre radius"].isna().tolist() == [False, True, True]


def test_a_block_as_a_corner(car):
    for book in (BookOnWindows(car, names=names()), book_in_lite([("Front", "A1:D12")])):
        corner = scripts.corner(book)
        assert corner.at("camber", travel=25.0) == call("CAMBER", EXAMPLE, 25.0)


def test_an_unknown_block_names_the_known_ones(car):
    with pytest.raises(Trouble, match="Gone, Speed, Front"):
        scripts.frame(BookOnWindows(car, names=names()), "Frnt")


# How they are started


@pytest.mark.parametrize("name", scripts.SCRIPTS)
def test_run_shows_what_a_script_says(car, name):
    book = BookOnWindows(car, names=names())
    text = scripts.run(name, book)
    assert book.app.alerts == [text] and text


def test_run_shows_what_went_wrong(car):
    book = BookOnWindows(car)
    assert "such as Front" in scripts.run("check", book)
    assert len(book.app.alerts) == 1


def test_run_takes_the_workbook_of_the_button(car, monkeypatch):
    book = BookOnWindows(car)
    monkeypatch.setattr(xlwings.Book, "caller", staticmethod(lambda: book))
    scripts.run("refresh")
    book.app.api.CalculateFull.assert_called_once_with()


def test_run_names_the_known_scripts():
    with pytest.raises(Trouble, match="refresh, share, check"):
        scripts.run("fresh", object())


def test_each_script_becomes_a_macro_for_its_button():
    with classic_xlwings() as udfs:
        module = types.ModuleType("cornerbook.scripts")
        decorators = types.SimpleNamespace(script=udfs.xlsub)
        for name, (caption, _) in scripts.SCRIPTS.items():
            vars(module)[scripts.entry_name(name)] = scripts._entry(decorators, name, caption)
        vba = vba_of(udfs, "cornerbook.scripts", module)
    subs = [line.split()[1] for line in vba.splitlines() if line.startswith("Sub ")]
    # Without arguments, or Excel could not start it from a button.
    assert sorted(subs) == sorted(macro + "()" for _, macro in scripts.buttons())


def test_an_entry_runs_its_script(car, monkeypatch):
    book = BookOnWindows(car)
    monkeypatch.setattr(xlwings.Book, "caller", staticmethod(lambda: book))
    scripts.corner_refresh()
    book.app.api.CalculateFull.assert_called_once_with()
    assert scripts.corner_refresh is scripts.corner_refresh


def test_the_entries_are_seen_by_what_looks_through_the_module():
    assert set(scripts.__all__) == {macro for _, macro in scripts.buttons()}
    assert set(scripts.__all__) <= set(dir(scripts))
    with pytest.raises(AttributeError):
        scripts.corner_fly  # noqa: B018


def test_each_script_becomes_an_entry_of_lite(monkeypatch):
    monkeypatch.setattr(scripts, "in_lite", lambda: True)
    main = types.ModuleType("main")
    decorators = types.SimpleNamespace(script=server.script, Book=xlwings.Book)
    for name, (caption, _) in scripts.SCRIPTS.items():
        vars(main)[scripts.entry_name(name)] = scripts._entry(decorators, name, caption)
    told = server.custom_scripts_meta(main)
    assert {(t["function_name"], t["name"]) for t in told} == {
        (macro, caption) for caption, macro in scripts.buttons()
    }
    book = book_in_lite([("Front", "A1:D12")])
    given = {xlwings.Book: book}
    asyncio.run(server.custom_scripts_call(main, "corner_check", typehint_to_value=given))
    (alert,) = book.json()["actions"]
    assert alert["func"] == "alert" and alert["args"][0] == "Front: ok"


def test_the_module_needs_neither_xlwings_nor_pandas(tmp_path):
    program = (
        "import sys, cornerbook.scripts as s; s.buttons()\n"
        "print(*({'xlwings', 'pandas', 'numpy'} & set(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, timeout=HANGING,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == ""
