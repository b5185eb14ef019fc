"""The two ways of the formulas in Excel, as a page of text."""

HOW = """\
In Excel

No Excel was at hand where this was made. The functions were run in the runtime that Excel has
for them, under Node.js, and through xlwings' own call path with values as Excel sends them;
the files were held to the rules of their format. Nobody has clicked a button in Excel yet.
If that is too little for you, use a copy made by cornerbook share: it needs nothing.

On Windows, macOS or the web, with nothing installed on the computer. The free add-in
xlwings Lite runs Python inside Excel.

1. cornerbook new car.xlsx --for excel makes the workbook as Excel stores it.
   (cornerbook convert car.xlsx forexcel.xlsx --for excel does it to one that you have.)
2. Open it in Excel. Home > Add-ins: search for xlwings Lite and add it. A pane opens.
3. cornerbook excel lite shows two texts. Copy each into the tab of its name in
   that pane, requirements.txt and main.py. Until cornerbook is in the index of Python
   packages, give the https address of its wheel in place of the word cornerbook.
4. In the pane's menu choose Restart, then type =CORNER. in a cell.

On Windows, with a Python beside Excel (classic functions, CORNER_TRAIL with an underscore):

1. pip install "cornerbook[excel]", then cornerbook excel install car.xlsm. It makes a
   macro workbook with the sheets of a new one, or those of --workbook mine.xlsx, and says what
   is left to do.
2. Open it, allow its macros, and tick Trust access to the VBA project object model (File >
   Options > Trust Center > Trust Center Settings > Macro Settings).
3. On the page Import functions press the button, then Ctrl+Alt+F9.

A cell that shows #NAME? means that Excel does not know the function: the Lite pane is not
open or one of its two texts is missing (restart it); the functions are not imported yet; or
the workbook is spelled for another program (cornerbook convert ... --for excel). A point of
a table that the linkage cannot reach is the text #N/A in classic functions, which a chart
may draw as 0; in Lite it is a real one.
"""
