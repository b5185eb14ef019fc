"""The half of the Calc driver that talks to LibreOffice; see calc.py for the other half.

Run by a Python that has `uno` (often the system's, which need not have pytest):

    python calc_client.py SOFFICE PROFILE_URL PIPE_NAME LOG_FILE

It starts Calc, then reads one JSON request a line on standard input, such as
{"do": "get", "book": 1, "sheet": "Sheet1", "range": "A1:C3"}, and answers each with one
line, {"ok": ...} or {"error": sentence}. When the input ends, so does Calc.
"""

import builtins
import json
import os
import subprocess
import sys
import time

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException

FILTERS = {"xlsx": "Calc MS Excel 2007 XML", "ods": "calc8", "pdf": "calc_pdf_Export"}
ERROR = 4
"""The kind of result that a formula has which gives an error (com.sun.star.sheet.FormulaResult)."""

START_SECONDS = 1500.0
"""A guard against waiting for ever: less than the other half waits."""

QUIT_SECONDS = 240.0
"""For Calc to end in its own way; then it is killed."""


class Refused(Exception):
    """A request that cannot be met; the text is the answer."""


def start(soffice, profile, pipe, log):
    """Start Calc without a window; returns its process and its desktop."""
    command = [
        soffice, "--headless", "--invisible", "--norestore", "--nologo", "--nodefault",
        "--nofirststartwizard",
        "-env:UserInstallation=" + profile,
        f"--accept=pipe,name={pipe};urp;",
    ]  # fmt: skip
    with open(log, "wb") as output:
        process = subprocess.Popen(
            command, stdin=subprocess.DEVNULL, stdout=output, stderr=subprocess.STDOUT
        )
    local = uno.getComponentContext()
    resolver = local.ServiceManager.createInstanceWithContext(
        "com.sun.star.bridge.UnoUrlResolver", local
    )
    url = f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext"
    give_up = time.monotonic() + START_SECONDS
    while True:
        try:
            context = resolver.resolve(url)
            break
        except NoConnectException:
            # The first start in a new profile may end itself and start again, so an ended
            # process alone is no proof of failure unless it said so.
            if process.poll() not in (None, 0):
                raise Refused("LibreOffice ended while starting: " + tail(log)) from None
            if time.monotonic() > give_up:
                raise Refused(
                    f"LibreOffice did not answer within {START_SECONDS:g} s: {tail(log)}"
                ) from None
            time.sleep(0.05)
    desktop = context.ServiceManager.createInstanceWithContext(
        "com.sun.star.frame.Desktop", context
    )
    return process, context, desktop


def tail(log):
    """The last lines that LibreOffice wrote."""
    with open(log, errors="replace") as file:
        return file.read()[-500:].strip() or "(it said nothing)"


def properties(**named):
    """UNO property values from keyword arguments."""
    return tuple(PropertyValue(name, 0, value, 0) for name, value in named.items())


class Client:
    """Calc and the books open in it. Each public method is a request of the same name."""

    def __init__(self, context, desktop):
        self._context = context
        self._desktop = desktop
        self._books = {}
        self._ranges = {}
        self._next = 1

    def _book(self, book):
        if book not in self._books:
            raise Refused(f"No book {book!r} is open")
        return self._books[book]

    def _cells(self, book, sheet, range):
        # Kept, since the first use of an object costs many messages to Calc, the next few.
        key = (book, sheet, range)
        if key not in self._ranges:
            if range == "":
                self._ranges[key] = self._sheet(book, sheet)
            else:
                self._ranges[key] = self._cells(book, sheet, "").getCellRangeByName(range)
        return self._ranges[key]

    def _sheet(self, book, sheet):
        sheets = self._book(book).Sheets
        if isinstance(sheet, int):
            return sheets.getByIndex(sheet)
        if sheets.hasByName(sheet):
            return sheets.getByName(sheet)
        raise Refused("No sheet {!r}; there are {}".format(sheet, ", ".join(sheets.ElementNames)))

    def _opened(self, url):
        document = self._desktop.loadComponentFromURL(url, "_blank", 0, properties(Hidden=True))
        if document is None or not document.supportsService(
            "com.sun.star.sheet.SpreadsheetDocument"
        ):
            if document is not None:
                document.close(True)
            raise Refused(f"Calc could not open {url}")
        number, self._next = self._next, self._next + 1
        self._books[number] = document
        return number

    def new(self):
        return self._opened("private:factory/scalc")

    def open(self, path):
        return self._opened(uno.systemPathToFileUrl(path))

    def sheets(self, book):
        return list(self._book(book).Sheets.ElementNames)

    def get(self, book, sheet, range):
        """Rows of values, '' for an empty cell, and [row, column, code, text] of each error."""
        cells = self._cells(book, sheet, range)
        rows = cells.getDataArray()  # where an error is None
        places = [(y, x) for y, row in enumerate(rows) if None in row
                  for x, value in enumerate(row) if value is None]  # fmt: skip
        if places:
            corner = cells.RangeAddress
            left, top = corner.StartColumn, corner.StartRow
        return rows, [[y, x, *self._error(book, sheet, left + x, top + y)] for y, x in places]

    def _error(self, book, sheet, x, y):
        """The number of the error in a cell, by its column and row from 0, and what it shows."""
        cell = self._cell(book, sheet, x, y)
        return cell.getError(), cell.getString()

    def _cell(self, book, sheet, x, y):
        # Kept as ranges are: what gives an error may do so again after each edit.
        key = (book, sheet, x, y)
        if key not in self._ranges:
            self._ranges[key] = self._cells(book, sheet, "").getCellByPosition(x, y)
        return self._ranges[key]

    def formulas(self, book, sheet, range):
        return [list(row) for row in self._cells(book, sheet, range).getFormulaArray()]

    def texts(self, book, sheet, range):
        cells = self._cells(book, sheet, range)
        at = cells.RangeAddress
        return [
            [cells.getCellByPosition(x, y).getString()
             for x in range_of(0, at.EndColumn - at.StartColumn)]
            for y in range_of(0, at.EndRow - at.StartRow)
        ]  # fmt: skip

    def set(self, book, edits):
        """edits: [sheet, cell, what], in order; Calc recalculates after each, as for a user."""
        for sheet, cell, what in edits:
            self._edit(self._cells(book, sheet, cell), what)

    def set_together(self, book, edits):
        """edits: as `set` takes them; Calc recalculates once, after all of them."""
        document = self._book(book)
        document.enableAutomaticCalculation(False)
        try:
            self.set(book, edits)
            document.calculate()
        finally:
            document.enableAutomaticCalculation(True)

    def _edit(self, cells, what):
        if what is None:
            cells.setDataArray((("",),))
        elif isinstance(what, bool):
            cells.setFormulaArray((("=TRUE()" if what else "=FALSE()",),))
        elif isinstance(what, (int, float)):
            cells.setDataArray(((float(what),),))
        elif isinstance(what, str):
            if what.startswith("="):
                cells.setFormulaArray(((what,),))
            else:
                cells.setDataArray(((what,),))
        elif "typed" in what:
            cells.getCellByPosition(0, 0).FormulaLocal = what["typed"]
        elif "array" in what:
            cells.setArrayFormula(what["array"])
        else:
            raise Refused(f"Cannot put {what!r} in a cell")

    def fill(self, book, sheet, range, rows):
        """Put a block of numbers, texts and formulas in `range` at once."""
        rows = tuple(tuple("" if v is None else v for v in row) for row in rows)
        cells = self._cells(book, sheet, range)
        if any(isinstance(v, str) and v.startswith("=") for row in rows for v in row):
            # getFormulaArray's counterpart takes texts only, and reads numbers from them.
            rows = tuple(tuple(v if isinstance(v, str) else repr(v) for v in row) for row in rows)
            cells.setFormulaArray(rows)
        else:
            cells.setDataArray(rows)

    def steps(self, book, steps, sheet, range):
        """For each step, a list of edits: make them, then read the range."""
        answers = []
        for edits in steps:
            self.set(book, edits)
            answers.append(self.get(book, sheet, range))
        return answers

    def errors(self, book):
        """[sheet, cell, code, what it shows] of every formula of a book that gives an error."""
        found = []
        for sheet in self.sheets(book):
            for area in self._cells(book, sheet, "").queryFormulaCells(ERROR).RangeAddresses:
                for y in range_of(area.StartRow, area.EndRow):
                    for x in range_of(area.StartColumn, area.EndColumn):
                        name = self._cell(book, sheet, x, y).AbsoluteName
                        address = name.rsplit(".", 1)[1].replace("$", "")
                        found.append([sheet, address, *self._error(book, sheet, x, y)])
        return found

    def seen(self, book, ranges):
        """The values of each of some ranges, [sheet, range], as rows; None for an error."""
        return [self._cells(book, *place).getDataArray() for place in ranges]

    def edited(self, book, edits, seen):
        """For each edit: made, the errors of the book, the ranges of `seen`; then taken back.

        seen: [sheet, range] each.
        """
        answers = []
        for sheet, cell, what in edits:
            was = self.exchange(book, [(sheet, cell, what)])
            answers.append([self.errors(book), self.seen(book, seen)])
            self.set(book, was)
        return answers

    def exchange(self, book, edits):
        """Make edits as `set` does; returns those that put back what stood there before."""
        was = [(sheet, cell, self._held(book, sheet, cell)) for sheet, cell, _ in edits]
        self.set(book, edits)
        return was

    def _held(self, book, sheet, cell):
        cells = self._cells(book, sheet, cell)
        (value,), (formula,) = cells.getDataArray()[0], cells.getFormulaArray()[0]
        return formula if formula.startswith("=") else value

    def name_range(self, book, name, sheet, range):
        """Name a block of cells, as Sheet > Named Ranges > Define does."""
        names = self._book(book).NamedRanges
        if names.hasByName(name):
            names.removeByName(name)
        cells = self._cells(book, sheet, range)
        base = self._cells(book, sheet, "A1").getCellByPosition(0, 0).CellAddress
        names.addNewByName(name, cells.AbsoluteName, base, 0)

    def recalculate(self, book):
        """Recalculate every formula; returns the seconds taken."""
        document = self._book(book)
        began = time.perf_counter()
        document.calculateAll()
        return time.perf_counter() - began

    def save(self, book, path, format):
        if format not in FILTERS:
            raise Refused("No format {!r}; choose from {}".format(format, ", ".join(FILTERS)))
        self._book(book).storeToURL(
            uno.systemPathToFileUrl(path), properties(FilterName=FILTERS[format], Overwrite=True)
        )

    def close(self, book):
        self._book(book).close(True)
        del self._books[book]
        self._ranges = {key: cells for key, cells in self._ranges.items() if key[0] != book}

    def function_descriptions(self, start):
        """What the function wizard shows for each function whose name begins with `start`."""
        listed = self._context.ServiceManager.createInstanceWithContext(
            "com.sun.star.sheet.FunctionDescriptions", self._context
        )
        found = {}
        for i in range_of(0, listed.Count - 1):
            one = {p.Name: p.Value for p in listed.getByIndex(i)}
            if one["Name"].startswith(start):
                found[one["Name"]] = {
                    "description": one["Description"],
                    "category": one["Category"],
                    "arguments": [
                        {"name": a.Name, "description": a.Description, "optional": a.IsOptional}
                        for a in one["Arguments"]
                    ],
                }
        return found

    def version(self):
        provider = self._context.ServiceManager.createInstanceWithContext(
            "com.sun.star.configuration.ConfigurationProvider", self._context
        )
        setup = provider.createInstanceWithArguments(
            "com.sun.star.configuration.ConfigurationAccess",
            properties(nodepath="/org.openoffice.Setup/Product"),
        )
        return setup.getByName("ooSetupVersionAboutBox")


def range_of(first, last):
    """Both ends included (the requests' argument `range` hides the built-in)."""
    return builtins.range(first, last + 1)


def answer(client, line):
    """The answer to one line of input, ready for JSON."""
    try:
        request = json.loads(line)
        do = request.pop("do")
        if do.startswith("_") or not hasattr(client, do):
            raise Refused(f"No request is called {do!r}")
        return {"ok": getattr(client, do)(**request)}
    except Refused as problem:
        return {"error": str(problem)}
    except Exception as problem:  # UNO's exceptions have no common base but this
        text = getattr(problem, "Message", "") or str(problem)
        return {"error": f"{type(problem).__name__}: {text}"}


def main():
    soffice, profile, pipe, log = sys.argv[1:]
    answers = os.fdopen(os.dup(1), "w")
    os.dup2(2, 1)  # nothing else may write among the answers

    def say(what):
        answers.write(json.dumps(what) + "\n")
        answers.flush()

    process = None
    try:
        process, context, desktop = start(soffice, profile, pipe, log)
        client = Client(context, desktop)
        say({"ok": "ready"})
        for line in sys.stdin:
            if json.loads(line).get("do") == "quit":
                break
            say(answer(client, line))
        try:
            desktop.terminate()
        except Exception:  # the bridge closes before the answer arrives
            pass
        process.wait(QUIT_SECONDS)
        say({"ok": "ended"})
    except Refused as problem:
        say({"error": str(problem)})
    finally:
        if process is not None and process.poll() is None:
            process.kill()


if __name__ == "__main__":
    main()
