"""`cornerbook survey`: from tape distances and heights to the points as built."""

from .files import copied


def add(commands):
    """Add the command to the parser's."""
    survey = commands.add_parser(
        "survey",
        help="find where a welded car's points are from tape distances, heights and plumb lines",
        description="Adjusts the measurements of the workbook's table Survey by least squares, "
        "starting from the drawn points, and makes a copy with the left and the right corner as "
        "built, how sure each point is, every result drawn against built, and the measurement "
        "that is most likely misread. Says which points are not fixed yet and what to measure.",
    )
    survey.add_argument("file", metavar="BOOK.xlsx", help="the workbook, which is only read")
    survey.add_argument(
        "--out", dest="copy", metavar="FILE.xlsx", required=True, help="the copy to make"
    )
    survey.add_argument(
        "--block", default="Front", metavar="NAME", help="the corner's block (Front)"
    )
    survey.add_argument("--force", action="store_true", help="replace the copy if it exists")
    survey.set_defaults(run=_survey)


def _survey(options):
    from ..book.study.survey.run import survey

    def make():
        content, said = survey(options.file, options.block)
        return content, [text[:1].upper() + text[1:] + "." for text in said]

    return f"{copied(options, make)} is made."
