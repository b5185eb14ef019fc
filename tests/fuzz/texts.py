"""Text files gone wrong: our own chapters, templates and scenarios, changed at random by a seed.

Whatever such a file holds, `make` either makes a workbook or raises `Trouble` with a sentence
and a line for each mistake. The suite runs a few of them (test_texts.py). By hand, from the
folder that holds `tests`, many:

    python -m tests.fuzz.texts --files 3000 --seed 1

It counts what became of them and shows each fault once, with the first file that had it; --keep
FOLDER keeps those files.
"""

import argparse
import functools
import io
import random
import re
import shutil
import signal
import sys
import tempfile
import warnings
import zipfile
from collections import Counter
from pathlib import Path

from cornerbook.book.file.trouble import Trouble
from cornerbook.book.make.new import make
from cornerbook.book.make.texts.places import names_in, workbooks
from lxml import etree

from tests.fuzz.commands import where

if sys.version_info >= (3, 11):
    import tomllib
else:
    import tomli as tomllib

MOST_LINES = 21
"""Mistakes said at once, and the line that says how many more there are."""

LINE = re.compile(r"^(.+\.toml(, line \d+)?: .+|and \d+ more|.+ (cannot be read|is a folder).*)$")

TEXTS = (
    "", " ", "x", "521,5", "1e5", "nan", "é", "a/b", "[x]", "it's", "'", "''", '"', "\\",
    "a" * 32, "a" * 300, "long " * 7000, "two\nlines", "tab\there", "nul\x00", "bell\x07",
    "\ufffe", "\U0001f600", "History", "A1", "$A$1", "R1C1", "RC", "TRUE", "#N/A", "#REF!", "{x}",
    "{", "}", "{car}", "{unit}", "{corner}", "%s", "%d %(x)s", "=", "=1", "=1/0", "=A1",
    "=A1:ZZZ9999999", "=B2:A1", "=SUM(A1:XFD1048576)", "=ZZ99", "=nothing", "=(", "=)",
    "=,", "={1,2}",
    "=1+", "=''!A1", "='", '="', "=[1]a!A1", "=Start!A1", "=IF()", "=IF(1)", "=IFERROR(1)",
    "=SUM()", "=ABS()", "=ABS(1,2)", "=MOD(1,0)", "=10^400", "=(-8)^(1/3)", "=0^-1", "=1E400",
    "=INT(1E308*10)", "=ROUND(1,400)", "=ROUND(1,-400)", "=TAN(1E308)", "=SQRT(-1)",
    "=MATCH(1,A1:B2,0)", "=INDEX(A1,1E99)", "=ROWS(1)", "=SUMPRODUCT(1)", "=COUNTIF(A1,\"<3\")",
    "=CORNER.", "=CORNER.TRAIL", "=CORNER.TRAIL()", "=CORNER.TRAIL(1)", "=CORNER.TRAIL(Front,,)",
    "=CORNER.TRAIL(Front,1,2,3)", "=CORNER.TRIAL(Front)", "=CORNER.TRAIL(A1:A3)",
    "=CORNER.TWO_WAY(Front,\"toe\",\"rack\",0,1,99999,\"travel\",0,1,99999)",
    "=" + "(" * 400 + "1" + ")" * 400, "=" + "-" * 3000 + "1", "=" + "1+" * 5000 + "1", "@", "=@A1",
    "=A1#", "=1%%", "=<>", "=1=1=1", "=TRUE+1", "=#N/A", "=#BOGUS!", "=A1 B2", "=(A1,B2)",
    "..", ".", "/", "../x.toml", "/dev/null", "/dev/zero", "/", "a" * 5000 + ".toml", "x\x00.toml",
    "corner.front", "car.wheelbase", "car", "car.", ".", "..", "target.trail", "mm", "in",
    "title", "text", "corner", "results", "chart", "grid", "length", "count", "upper arm",
)  # fmt: skip

NUMBERS = (
    "0", "-1", "1", "2", "3", "0.5", "-0.0", "1e308", "-1e308", "1e-320", "inf", "-inf", "nan",
    "9" * 400, "9" * 5000, "1000001", "65536", "1e6", "0x10", "0b11", "1_000", "99999999999",
)  # fmt: skip

OTHERS = (
    "true", "false", "[]", "{}", "[[]]", "[0]", "[1, 2]", "[1, 2, 3]", "[3, 2]", "[nan, 1]",
    "[inf, inf]", '["a", 1]', '[""]', "1979-05-27", "07:32:00", "1979-05-27T07:32:00Z",
    "[" * 60 + "]" * 60, "[" * 3000 + "]" * 3000, "{ a = " * 60 + "1" + " }" * 60,
    "{ moves = 1, turn = 2 }", "{ label = 1 }", "[{}]", "[" + "0, " * 30000 + "0]",
)  # fmt: skip

BYTES = (
    b"\x00", b"\xff", b"\xfe", b"\xef\xbb\xbf", b"\r", b"\n", b"\r\n", b"\t", b'"', b"'", b'"""',
    b"[", b"]", b"[[", b"]]", b"{", b"}", b"=", b"#", b",", b".", b"\\", b"\\u0000", b"\xc3",
    b"\xed\xa0\x80", b"a.b.c", b"a = 1\n", b"[car]\n", b"[[sheet]]\n", b"[[sheet.block]]\n",
    b"[sheet]\n", b"\x7f", b" = ", b"a." * 2000 + b"a = 1\n",
)  # fmt: skip

TOKEN = re.compile(r'"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'|[+-]?[0-9][0-9._eE+-]*|[A-Za-z_][\w-]*|\S')


def odd(chance, instead=None):
    """A value that nobody would write, as TOML text; of the kind of another, half of the times."""
    if isinstance(instead, str) and chance.random() < 0.5:
        formula = instead.startswith("=")
        return quoted(chance.choice([t for t in TEXTS if t.startswith("=") or not formula]))
    if isinstance(instead, (int, float)) and chance.random() < 0.5:
        return chance.choice(NUMBERS)
    kind = chance.random()
    if kind < 0.5:
        return quoted(chance.choice(TEXTS))
    return chance.choice(NUMBERS if kind < 0.75 else OTHERS)


def quoted(text):
    """A text as TOML has it."""
    out = []
    for letter in text:
        code = ord(letter)
        plain = letter not in '"\\' and code >= 32 and code != 127
        out.append(letter if plain else f"\\u{code:04x}")
    return '"' + "".join(out) + '"'


# ---------------------------------------------------------------- changes of the text


def _lines(text, chance):
    lines = text.split("\n")
    at, other = (chance.randrange(len(lines)) for _ in range(2))
    what = chance.choice(("delete", "double", "swap", "move", "cut out"))
    if what == "delete":
        del lines[at]
    elif what == "double":
        lines.insert(at, lines[at])
    elif what == "swap":
        lines[at], lines[other] = lines[other], lines[at]
    elif what == "move":
        lines.insert(other, lines.pop(at))
    else:
        del lines[at : at + chance.randrange(1, 12)]
    return "\n".join(lines)


def _token(text, chance):
    found = list(TOKEN.finditer(text))
    if not found:
        return text
    token, other = chance.choice(found), chance.choice(found)
    new = chance.choice((odd(chance), other.group(), "", token.group() + token.group()))
    return text[: token.start()] + new + text[token.end() :]


def _letter(text, chance):
    at = chance.randrange(len(text) + 1)
    what = chance.random()
    if what < 0.4:
        return text[:at] + text[at + 1 :]
    if what < 0.7:
        return text[:at] + text[at : at + 2][::-1] + text[at + 2 :]
    return text[:at] + chance.choice("aZ0.,-_ ") + text[at:]


def _truncated(text, chance):
    return text[: chance.randrange(len(text) + 1)]


# ---------------------------------------------------------------- changes of the content


class Raw:
    """A value that is written as it stands."""

    def __init__(self, text):
        self.text = text


def _content(text, chance):
    """The same file with a value changed, doubled, deleted or in another's place."""
    try:
        content = tomllib.loads(text)
    except (ValueError, RecursionError):
        return _token(text, chance)
    places = list(_places(content))
    if not places:
        return text
    holder, key = _one_of(places, chance)
    other_holder, other_key = _one_of(places, chance)
    what = chance.choice(("odd", "odd", "odd", "delete", "swap", "double", "rename", "retype"))
    if what == "odd":
        holder[key] = Raw(odd(chance, holder[key]))
    elif what == "delete":
        del holder[key]
    elif what == "swap":
        holder[key], other_holder[other_key] = other_holder[other_key], holder[key]
    elif what == "double" and isinstance(holder, list):
        holder.insert(key, holder[key])
    elif what == "double":
        holder[f"{key}2"] = holder[key]
    elif what == "rename" and isinstance(holder, dict):
        holder[_letter(key, chance)] = holder.pop(key)
    else:
        value = holder[key]
        holder[key] = chance.choice(([value], {"a": value}, str(value)[:200], [value] * 3))
    try:
        return _written(content)
    except RecursionError:
        return text


def _places(content):
    if isinstance(content, (dict, list)):
        for key in content if isinstance(content, dict) else range(len(content)):
            yield content, key
            yield from _places(content[key])


def _one_of(places, chance):
    """One of them; keys that stand often, such as formula, are no likelier than others."""
    name = chance.choice(sorted({key for _, key in places if isinstance(key, str)}))
    named = [(holder, key) for holder, key in places if key == name]
    # A list or a table is reached as often through what it holds.
    holder, key = chance.choice(named)
    inside = list(_places(holder[key]))
    return chance.choice(inside) if inside and chance.random() < 0.4 else (holder, key)


def _written(content):
    """TOML of a content: plain values first, then its tables and arrays of tables."""
    out = []
    _table(content, (), out)
    return "\n".join(out) + "\n"


def _table(table, path, out):
    later = []
    for key, value in table.items():
        tables = isinstance(value, list) and value and all(isinstance(v, dict) for v in value)
        if len(path) < 2 and (isinstance(value, dict) or (tables and key in ("sheet", "block"))):
            later.append((key, value))
        else:
            out.append(f"{quoted(key)} = {_value(value)}")
    for key, value in later:
        name = ".".join(map(quoted, (*path, key)))
        for each in value if isinstance(value, list) else [value]:
            out.append(f"[[{name}]]" if isinstance(value, list) else f"[{name}]")
            _table(each, (*path, key), out)


def _value(value):
    if isinstance(value, Raw):
        return value.text
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, list):
        return "[" + ", ".join(map(_value, value)) + "]"
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{quoted(k)} = {_value(v)}" for k, v in value.items()) + " }"
    return str(value)


# ---------------------------------------------------------------- files


def _bytes(content, chance):
    at = chance.randrange(len(content) + 1)
    if chance.random() < 0.5:
        return content[:at] + chance.choice(BYTES) + content[at:]
    return content[:at] + bytes([chance.randrange(256)]) + content[at + 1 :]


def _encoded(text, chance):
    made = text.encode(chance.choice(("utf-16", "utf-16-le", "utf-8-sig", "latin-1", "cp500")),
                       "replace")  # fmt: skip
    return chance.choice((made, made, b"", b"\n\n", b"# nothing\n"))


WAYS = {_content: 20, _token: 4, _lines: 3, _letter: 2, _truncated: 1}
"""How a text is changed, and how often."""


def changed(text, chance):
    """The bytes of a file that was this text."""
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        (how,) = chance.choices(list(WAYS), WAYS.values())
        text = how(text, chance)
    if chance.random() < 0.02:
        return _encoded(text, chance)
    content = text.encode("utf-8", "surrogatepass")
    return _bytes(content, chance) if chance.random() < 0.04 else content


def ours(folder, name):
    return (workbooks() / folder / f"{name}.toml").read_text(encoding="utf-8")


@functools.cache
def _head(name):
    return tomllib.loads(ours("chapters", name))


def _needed(name, order):
    """The chapters that a chapter needs and itself, added in an order that their needs allow."""
    if name not in order:
        head = _head(name)
        for need in head.get("needs", ()):
            _needed(need, order)
        order.append(name)
        for need in head.get("needs_anywhere", ()):
            _needed(need, order)
    return order


EVERY_KIND = Path(__file__).parent / "every_kind.toml"

SMALL = ("front-corner", "car", "first-layout", "adjusters", "what-if", "compare", "lock-to-lock")
"""Chapters whose workbooks are quickly made and ask for values of every kind."""


def files(chance):
    """{name: bytes} of a case: a template mine.toml, a scenario lapwing.toml, and a chapter.

    One of them is changed, or both that and the scenario.
    """
    scenario = ours("scenarios", "lapwing")
    what = chance.random()
    if what < 0.5:
        name = "car"
        template, own = EVERY_KIND.read_text(encoding="utf-8"), ours("chapters", name)
        which = "template" if what < 0.4 else "scenario"
    else:
        name = chance.choice(SMALL if what < 0.95 else names_in("chapters"))
        chapters = [f"{each}.toml" if each == name else each for each in _needed(name, [])]
        template = f'title = "Mine"\nchapters = [{", ".join(map(quoted, chapters))}]\n'
        own = ours("chapters", name)
        which = chance.choice(("template", "chapter", "chapter", "chapter", "scenario", "scenario"))
    texts = {"template": template, "chapter": own, "scenario": scenario}
    made = {part: text.encode() for part, text in texts.items()}
    made[which] = changed(texts[which], chance)
    if chance.random() < 0.1:
        made["scenario"] = changed(scenario, chance)
    return {
        "mine.toml": made["template"],
        f"{name}.toml": made["chapter"],
        "lapwing.toml": made["scenario"],
    }


# ---------------------------------------------------------------- what becomes of them


class Hang(Exception):
    """It took too long."""


def became(folder, contents):
    """'made', 'said', or what is wrong: a line that is the same for the same fault."""
    for name, content in contents.items():
        (folder / name).write_bytes(content)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            book = make(str(folder / "mine.toml"), str(folder / "lapwing.toml"))
    except Trouble as trouble:
        return _unlike(str(trouble)) or "said"
    except Hang:
        return "fault: it took too long"
    except BaseException as error:
        if isinstance(error, KeyboardInterrupt):
            raise
        return f"fault: {type(error).__name__} at {where(error)}"
    try:
        with zipfile.ZipFile(io.BytesIO(book)) as parts:
            for part in parts.namelist():
                if part.endswith((".xml", ".rels")):
                    etree.fromstring(parts.read(part))
    except etree.XMLSyntaxError as error:
        return f"fault: a part of the workbook is no XML: {str(error)[:40]}"
    return "made"


def _unlike(said):
    """What a `Trouble` says that it should not, None where all is well."""
    lines = said.split("\n")
    if len(lines) > MOST_LINES:
        return f"fault: more than {MOST_LINES} lines"
    for line in lines:
        if not LINE.match(line):
            return f"fault: a line without a file: {line[:50]}"
        if len(line) > 1000:
            return "fault: a line of more than 1000 characters"
    return None


def run(count, seed, seconds=None, keep=None, each=None):
    """{what became of files: how many}, and {a fault: the first seed that had it}.

    seconds: how long one may take before it is a fault, where the system can tell; for long
    runs by hand. keep: a folder for the files of each fault. each: a function of (done, counts)
    that is called after each.
    """
    counts, first = Counter(), {}
    with tempfile.TemporaryDirectory() as made:
        for number in range(seed, seed + count):
            folder = Path(made) / str(number)
            folder.mkdir()
            contents = files(random.Random(number))
            if seconds:
                signal.signal(signal.SIGALRM, _hang)
                signal.alarm(seconds)
            try:
                what = became(folder, contents)
            finally:
                if seconds:
                    signal.alarm(0)
            counts[what] += 1
            if what.startswith("fault") and what not in first:
                first[what] = number
                if keep:
                    shutil.copytree(folder, Path(keep) / str(number), dirs_exist_ok=True)
            shutil.rmtree(folder)
            if each:
                each(number - seed + 1, counts)
    return counts, first


def _hang(*_):
    raise Hang


def main():
    """Run by hand; the exit status is 1 where there was a fault."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz.texts")
    parser.add_argument("--files", type=int, default=3000, help="how many cases (3000)")
    parser.add_argument("--seed", type=int, default=1, help="the number of the first one (1)")
    parser.add_argument("--seconds", type=int, default=120, help="the longest for one (120)")
    parser.add_argument("--keep", help="a folder for the files of each fault")
    options = parser.parse_args()

    def each(done, counts):
        if done % 100 == 0:
            print(done, dict(counts.most_common(2)), file=sys.stderr, flush=True)

    counts, first = run(options.files, options.seed, options.seconds, options.keep, each)
    for what, count in counts.most_common():
        print(f"{count:6d}  {what}" + (f"  (seed {first[what]})" if what in first else ""))
    kinds = sum(what.startswith("fault") for what in counts)
    print(f"{kinds} kinds of fault")
    return 1 if kinds else 0


if __name__ == "__main__":
    sys.exit(main())
