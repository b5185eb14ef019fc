"""`cornerbook chapters`: list the chapters of which a workbook is made."""


def add(commands):
    """Add the command to the parser's."""
    listed = commands.add_parser("chapters", help="list the chapters of which a workbook is made")
    listed.add_argument("--template", default="car", help="a template's name or a .toml file (car)")
    listed.set_defaults(run=_chapters)


def _chapters(options):
    from ..book.make.templates.template import Template
    from ..book.make.texts.places import find

    template = Template(find("templates", options.template))
    width = max((len(chapter.name) for chapter in template.chapters), default=0)
    lines, group = [], None
    for chapter in template.chapters:
        if chapter.group != group:
            group = chapter.group
            lines += ["", f"{group or 'your own'}:"]
        lines.append(f"  {chapter.name:{width}}  {chapter.about}")
    return "\n".join(lines).strip()
