"""The names by which Calc knows the extension, shared by what builds it and what runs in it."""

NAMESPACE = "CORNER"
"""The UNO service. Calc keeps a call in a file as SERVICE.METHOD, so this is also what
a user types before the dot."""

MODULE = ("org", "cornerbook", "calc")
"""The UNO module that holds the interface."""

IDENTIFIER = ".".join(MODULE)
"""How LibreOffice's extension manager knows the extension."""

INTERFACE = IDENTIFIER + ".XFormulas"
"""The UNO interface that has one method for each formula."""

IMPLEMENTATION = IDENTIFIER + ".Formulas"
"""The UNO name of the component."""

ADDIN_SERVICE = "com.sun.star.sheet.AddIn"
"""The service by which Calc finds an add-in."""

CATEGORY = "Add-In"
"""The function wizard's category. Calc has a fixed list of them and puts any other
name under this one."""


def shown(name):
    """The name of a formula as a user types it: `CORNER.TRAIL` for `TRAIL`."""
    return NAMESPACE + "." + name
