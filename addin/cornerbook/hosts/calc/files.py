"""The text files of the extension other than Python code, made from the catalogue."""

from xml.sax.saxutils import escape

from ...catalogue import FORMULAS
from .names import CATEGORY, IDENTIFIER, INTERFACE, MODULE, NAMESPACE

DISPLAY_NAME = "Cornerbook"
SUMMARY = (
    "Formulas that tell what the wheels of a small home-built car do when it steers, "
    f"bumps and corners. Type ={NAMESPACE}. in a cell, or look under {CATEGORY} in the function "
    "wizard.\n"
)

TYPE_LIBRARY = "application/vnd.sun.star.uno-typelibrary;type=RDB"
PYTHON_COMPONENT = "application/vnd.sun.star.uno-component;type=Python"


def type_library():
    """The UNO types as IDL source: the interface with a method for each formula, and the service.

    Every argument is an `any`, so that numbers, texts, cells and left-out arguments all
    reach the formula, which can then say in words what is wrong with one.
    """
    lines = [f"module {name} {{" for name in MODULE]
    lines.append("interface {} {{".format(INTERFACE.rpartition(".")[2]))
    for formula in FORMULAS.values():
        # Numbered, since an argument's own name might be a word of the language.
        arguments = [f"[in] any a{i + 1}" for i in range(len(formula.arguments))]
        # LibreOffice's Python cannot return a table as an `any`: it loses the table's type.
        result = "sequence< sequence<any> >" if formula.shape == "table" else "any"
        lines.append("    {} {}({});".format(result, formula.name, ", ".join(arguments)))
    lines.append("};")
    lines.extend("};" for _ in MODULE)
    lines.append("service {} : {};".format(NAMESPACE, INTERFACE.replace(".", "::")))
    return "\n".join(lines) + "\n"


def manifest(entries):
    """The list of what LibreOffice is to register. entries: (path, media type) pairs."""
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<manifest:manifest xmlns:manifest="http://openoffice.org/2001/manifest">',
    ]
    for path, media_type in entries:
        lines.append(
            f'  <manifest:file-entry manifest:media-type="{escape(media_type)}"'
            f' manifest:full-path="{escape(path)}"/>'
        )
    lines.append("</manifest:manifest>")
    return "\n".join(lines) + "\n"


def description(version, summary_path):
    """What the extension manager shows. summary_path: the file that holds `SUMMARY`."""
    return f"""<?xml version="1.0" encoding="UTF-8"?>
<description xmlns="http://openoffice.org/extensions/description/2006"
             xmlns:xlink="http://www.w3.org/1999/xlink">
  <identifier value="{IDENTIFIER}"/>
  <version value="{escape(version)}"/>
  <display-name><name lang="en">{escape(DISPLAY_NAME)}</name></display-name>
  <extension-description>
    <src lang="en" xlink:href="{escape(summary_path)}"/>
  </extension-description>
</description>
"""
