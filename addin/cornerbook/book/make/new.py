"""From the names of a template and a scenario to the bytes of a workbook."""

from .build import build
from .places import find, workbooks
from .scenario import Scenario
from .template import Template
from .write import to_xlsx


def make(template="starter", scenario="lapwing", system="mm", target="calc"):
    """The bytes of a new workbook.

    template, scenario: a name under `workbooks/`, or the path of a .toml file.
    system: "mm" or "in". target: the spreadsheet program it is for.
    Raises `Trouble` with what to mend.
    """
    read_template = Template(find("templates", template))
    read_scenario = Scenario(find("scenarios", scenario))
    pictures = workbooks() / "pictures"
    return to_xlsx(build(read_template, read_scenario, system, target, pictures))
