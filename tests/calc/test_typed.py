"""A workbook that a real Calc has edited and saved comes back from what is typed in it."""

from cornerbook.book.make.new import make
from cornerbook.book.study.typed.run import scenario_of

from tests.support.yellow import other_values, yellow_of


def test_edited_and_saved_by_calc(calc, starter, tmp_path):
    changes = other_values(starter, 7)
    path = tmp_path / "saved.xlsx"
    with calc.open(starter) as book:
        book.set_together([(*cell, value) for cell, value in changes.items()])
        book.save(path)
    written = scenario_of(path, "x.toml")
    text = tmp_path / "x.toml"
    text.write_text(written.text, encoding="utf-8")
    made, saved = yellow_of(make("car", text)), yellow_of(path)
    assert written.messages == []
    assert {c for c, v in saved.items() if v is not None} == {
        c for c, v in made.items() if v is not None
    }
    typed = {c for c, v in made.items() if v is not None and not str(v).startswith("=")}
    assert {c: saved[c] for c in typed} == {c: made[c] for c in typed}
    assert len(typed) > 250
