"""The text files of the extension other than Python code, made from the catalogue."""

from xml.sax.saxutils import escape

from ...catalogue import FORMULAS
from .names import IDENTIFIER, INTERFACE, MODULE, NAMESPACE

DISPLAY_NAME = "Cornerbook"
SUMMARY = (
    "Formulas that tell what the wheels of a small home-built car do when it steers, "
    "bumps and corners. Type =%s. in a cell, or look under Add-In in the function wizard.\n"
    % NAMESPACE
)

TYPE_LIBRARY = "application/vnd.sun.star.uno-typelibrary;type=RDB"
PYTHON_COMPONENT = "application/vnd.sun.star.uno-component;type=Python"


def type_library():
    """The UNO types as IDL source: the interface with a method for each formula, and the service.

    Every argument is an `any`, so that numbers, texts, cells and left-out arguments all
    reach the formula, which can then say in words what is wrong with one.
    """
    lines = ["module %s {" % name for name in MODULE]
    lines.append("interface %s {" % INTERFACE.rpartition(".")[2])
    for formula in FORMULAS.values():
        # Numbered, since an argument's own name might be a word of the language.
        arguments = ["[in] any a%d" % (i + 1) for i in range(len(formula.arguments))]
        lines.append("    any %s(%s);" % (formula.name, ", ".join(arguments)))
    lines.append("};")
    lines.extend("};" for _ in MODULE)
    lines.append("service %s : %s;" % (NAMESPACE, INTERFACE.replace(".", "::")))
    return "\n".join(lines) + "\n"


def manifest(entries):
    """The list of what LibreOffice is to register. entries: (path, media type) pairs."""
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<manifest:manifest xmlns:manifest="http://openoffice.org/2001/manifest">',
    ]
    for path, media_type in entries:
        lines.append(
            '  <manifest:file-entry manifest:media-type="%s" manifest:full-path="%s"/>'
            % (escape(media_type), escape(path))
        )
    lines.append("</manifest:manifest>")
    return "\n".join(lines) + "\n"


def description(version, summary_path):
    """What the extension manager shows. summary_path: the file that holds `SUMMARY`."""
    return """<?xml version="1.0" encoding="UTF-8"?>
<description xmlns="http://openoffice.org/extensions/description/2006"
             xmlns:xlink="http://www.w3.org/1999/xlink">
  <identifier value="%s"/>
  <version value="%s"/>
  <display-name><name lang="en">%s</name></display-name>
  <extension-description><src lang="en" xlink:href="%s"/></extension-description>
</description>
""" % (IDENTIFIER, escape(version), escape(DISPLAY_NAME), escape(summary_path))
