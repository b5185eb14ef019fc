"""One of our templates as a single text that holds all of its sheets itself."""

from cornerbook.book.make.places import find
from cornerbook.book.make.template import Template


def flat(name):
    """The text of a template without chapters, with the sheets that the chapters hold."""
    template = Template(find("templates", name))
    bodies = [chapter.file.text.split("[[sheet]]", 1)[1] for chapter in template.chapters]
    return f'title = "{template.title}"\n' + "".join("\n[[sheet]]" + body for body in bodies)
