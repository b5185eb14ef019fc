"""What a file holds that would not be true of a changed .xlsx, or works only elsewhere."""


def leave_out(parts, book):
    """Take out what a changed copy cannot keep; sentences on that and on what it leans on.

    parts: the `Parts`. book: the name of the workbook's part. Returns (whether it held macros,
    the sentences).
    """
    said = []
    macros = parts.unrelate(book, {"vbaProject"})
    if macros:
        said.append("It holds macros; the copy is an .xlsx and leaves them out.")
    if parts.unrelate("", {"origin"}):
        said.append("It is digitally signed; the copy is changed, so it leaves the signature out.")
    if parts.unrelate(book, {"revisionHeaders", "usernames"}):
        said.append("It keeps a history of changes; the copy leaves the history out.")
    kinds = {relation.kind for relation in parts.relations.of(book)}
    if "externalLink" in kinds:
        said.append(
            "It takes values from other workbooks; the copy keeps these links, which work "
            "only where those files can be found."
        )
    if "connections" in kinds:
        said.append(
            "It has connections to outside data; the copy keeps them, and they work only "
            "where that data can be reached."
        )
    return macros, said
