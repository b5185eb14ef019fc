"""A short run of texts gone wrong; the long one is by hand, as texts.py says at its head."""

from tests.fuzz.texts import EVERY_KIND, became, ours, run


def test_nothing_but_workbooks_and_sentences():
    counts, first = run(150, seed=20_001)
    assert not first, "\n".join(f"seed {seed}: {what}" for what, seed in first.items())
    # A run in which nothing is made, or nothing refused, would show nothing.
    assert counts["made"] > 10
    assert counts["said"] > 50


def test_unchanged_it_is_made(tmp_path):
    contents = {
        "mine.toml": EVERY_KIND.read_bytes(),
        "car.toml": ours("chapters", "car").encode(),
        "lapwing.toml": ours("scenarios", "lapwing").encode(),
    }
    assert became(tmp_path, contents) == "made"


def test_a_fault_would_be_seen(tmp_path, monkeypatch):
    def fails(*_):
        raise ValueError("odd")

    monkeypatch.setattr("tests.fuzz.texts.make", fails)
    assert became(tmp_path, {"mine.toml": b""}).startswith("fault: ValueError")
