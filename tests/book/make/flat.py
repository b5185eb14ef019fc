"""One of our templates as a single text that holds all of its sheets itself."""

import json

from cornerbook.book.make.templates.template import Template
from cornerbook.book.make.texts.places import find


def flat(name):
    """The text of a template without chapters, with the sheets that the chapters hold."""
    template = Template(find("templates", name))
    text = f'title = "{template.title}"\n'
    for chapter in template.chapters:
        for body in chapter.file.text.split("[[sheet]]\n")[1:]:
            text += "\n[[sheet]]\n"
            own = body.partition("[[")[0]
            for key in ("about", "group"):
                if f"\n{key} = " not in own:
                    text += f"{key} = {json.dumps(getattr(chapter, key))}\n"
            text += body
    return text
