"""The part of the extension that runs inside Calc: one method for each formula.

Calc finds the methods through the interface that the extension's .idl file declares,
asks `XAddIn` for the texts of the function wizard, and calls a method with one value
for each argument: a float, a text, None where it is left out, or a tuple of row tuples
for cells. All of it follows from the catalogue; nothing is listed here.

As tried in Calc 7.4: every parameter is `any`. A formula whose shape is `table` returns
`sequence<sequence<any>>`, since a table inside an `any` shows #VALUE!; within a table, #N/A is a
not-a-number that carries Calc's error number. An add-in cannot have a category of its own in the
wizard, which lists it under Add-in. A single empty cell arrives as 0, and a range that holds an
error gives Err:504 before a formula is asked. Calc keeps the stored values of an .xlsx on opening
and works out anew only what is edited, array formulas, and cells whose stored value is an error.

Python 3.8 syntax and the standard library only: this runs on the Python that
LibreOffice brings along.
"""

import os
import struct
import sys

import uno
import unohelper
from com.sun.star.lang import XServiceInfo, XServiceName
from com.sun.star.sheet import XAddIn

# LibreOffice appends `pythonpath` to the search path. A cornerbook of another version,
# installed with pip, would be found before it and not fit the .idl, so ours goes first.
_OURS = os.path.join(os.path.dirname(os.path.abspath(__file__)), "pythonpath")
sys.path.insert(0, _OURS)
try:
    from cornerbook.catalogue import FORMULAS, call
    from cornerbook.hosts.calc.names import (
        ADDIN_SERVICE,
        CATEGORY,
        IMPLEMENTATION,
        INTERFACE,
        NAMESPACE,
        shown,
    )
finally:
    sys.path.remove(_OURS)

_NOT_AVAILABLE = struct.unpack("=d", struct.pack("=Q", 0x7FF8000000007FFF))[0]
"""#N/A inside a table: Calc reads an error's number, here 32767, from the low bits of a
not-a-number. (A None there would be an empty cell, which a chart may draw as 0.)"""


def cell_value(result):
    """What Calc takes for a single result: a number, a text, or None for #N/A."""
    kind = type(result)
    if kind is float:
        # An infinity or not-a-number would show as #NUM!.
        return result if result - result == 0.0 else None
    if kind is str or result is None:
        return result
    return float(result)


def table_value(result):
    """What Calc takes for a table: a tuple of row tuples, of one cell for a single result."""
    if type(result) not in (tuple, list):
        return ((_value_in_table(result),),)
    if not any(result):
        return ((_NOT_AVAILABLE,),)  # Calc would show a table without cells as 0
    return tuple(tuple(map(_value_in_table, row)) for row in result)


def _value_in_table(value):
    value = cell_value(value)
    return _NOT_AVAILABLE if value is None else value


def _method(formula):
    convert = table_value if formula.shape == "table" else cell_value
    name = formula.name

    def method(self, *raw):
        try:
            return convert(call(name, *raw))
        except Exception as problem:  # an exception would be a bare #VALUE! in the cell
            return convert(
                f"# {shown(name)} met a fault of its own ({type(problem).__name__}: "
                f"{problem}); please report it"
            )

    method.__name__ = name
    return method


class _Described(XServiceInfo, XServiceName, XAddIn):
    """What Calc asks an add-in about itself; unknown names get an empty answer."""

    _locale = None

    # XServiceInfo
    def getImplementationName(self):
        return IMPLEMENTATION

    def supportsService(self, name):
        return name in self.getSupportedServiceNames()

    def getSupportedServiceNames(self):
        return (NAMESPACE, ADDIN_SERVICE)

    # XServiceName
    def getServiceName(self):
        return NAMESPACE

    # XLocalizable: the texts are in English whatever the locale
    def setLocale(self, locale):
        self._locale = locale

    def getLocale(self):
        return self._locale or uno.createUnoStruct("com.sun.star.lang.Locale", "en", "US", "")

    # XAddIn
    def getProgrammaticFuntionName(self, display_name):  # (spelled so in the interface)
        start = NAMESPACE + "."
        name = display_name[len(start) :] if display_name.startswith(start) else display_name
        return name if name in FORMULAS else ""

    def getDisplayFunctionName(self, name):
        return shown(name) if name in FORMULAS else ""

    def getFunctionDescription(self, name):
        return FORMULAS[name].sentence if name in FORMULAS else ""

    def getDisplayArgumentName(self, name, position):
        argument = _argument(name, position)
        return argument.name if argument else ""

    def getArgumentDescription(self, name, position):
        argument = _argument(name, position)
        return argument.help if argument else ""

    def getProgrammaticCategoryName(self, name):
        return CATEGORY

    def getDisplayCategoryName(self, name):
        return CATEGORY


def _argument(name, position):
    formula = FORMULAS.get(name)
    if formula is None or not 0 <= position < len(formula.arguments):
        return None
    return formula.arguments[position]


# Made by hand rather than with `class`, since the methods are known only at run time.
Formulas = type(
    "Formulas",
    (unohelper.Base, _Described, uno.getClass(INTERFACE)),
    {name: _method(formula) for name, formula in FORMULAS.items()},
)


def create(context):
    """Make the component; `context` is LibreOffice's, which the formulas have no use for."""
    return Formulas()


g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(create, IMPLEMENTATION, (NAMESPACE, ADDIN_SERVICE))
