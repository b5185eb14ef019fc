"""What corners keep for other cells is bounded by its size, all together."""

import gc
import tracemalloc

import pytest
from cornerbook.catalogue import call
from cornerbook.cells import kept
from cornerbook.cells.adjusted import AdjustedCorner
from cornerbook.cells.corner import Corner
from cornerbook.cells.example import EXAMPLE
from cornerbook.cells.inputs import corner_of
from cornerbook.cells.kept import KEEPER, Keeper, Store
from cornerbook.geometry.corner.linkage import Linkage
from cornerbook.geometry.vec import Vec

from tests.catalogue.test_solved_once import _own_block

ROOM = 1.5e6
"""Bytes: some thousand poses."""


@pytest.fixture(scope="module", autouse=True)
def alone():
    """What other tests keep is not looked through for circles each time that this is done here."""
    corner_of.cache_clear()
    gc.collect()
    gc.freeze()
    yield
    gc.unfreeze()


@pytest.fixture
def little_room(monkeypatch):
    """All corners may keep `ROOM` together; what was kept before is forgotten."""
    corner_of.cache_clear()
    gc.collect()
    monkeypatch.setattr(KEEPER, "most", ROOM)
    monkeypatch.setattr(KEEPER, "known", 0.0)
    yield
    corner_of.cache_clear()


def things():
    """How many things are kept by all corners, by their kind."""
    found = {}
    for store in KEEPER.stores:
        for kind, shelf in store.shelves.items():
            found[kind] = found.get(kind, 0) + len(shelf)
    return found


def sweep(block, count, name="CAMBER"):
    for i in range(count):
        assert isinstance(call(name, block, 0.01 * (i + 1), 0.0), float)


def test_what_is_counted_is_what_it_takes():
    """Held to what Python's own tracing of memory finds for some thousand poses and motions."""
    corner = Corner(EXAMPLE)
    assert isinstance(corner.motion(1.0, 1.0).spin.x, float)
    before = corner._kept.size
    gc.collect()
    tracemalloc.start()
    try:
        for i in range(3000):
            corner.motion(0.01 * i, 2.0)
        gc.collect()
        taken = tracemalloc.get_traced_memory()[0]
    finally:
        tracemalloc.stop()
    # Parts that two of them share are counted twice; a dictionary grows by more than it needs.
    assert 0.7 * taken < corner._kept.size - before < 1.5 * taken


def test_many_cars_keep_no_more_than_there_is_room_for(little_room):
    each = 600
    for edit in range(8):
        sweep(_own_block(2.0 + 0.125 * edit), each, "CAMBER_GAIN")
        assert KEEPER.known <= ROOM
    kept_now = things()
    # So many were asked for that most had to go, and no more went than was needed.
    assert sum(kept_now.values()) < 0.5 * 8 * 2 * each
    size = sum(store.size for store in KEEPER.stores)
    assert size <= KEEPER.known <= ROOM
    assert size > 0.5 * ROOM
    counted = sum(
        len(shelf) * KEEPER.sizes[store.owner, kind]
        for store in KEEPER.stores
        for kind, shelf in store.shelves.items()
    )
    assert counted == pytest.approx(size)


def test_those_asked_longest_ago_go_first(little_room, monkeypatch):
    old, used, new = (_own_block(4.0 + 0.125 * i) for i in range(3))
    sweep(old, 400)
    sweep(used, 200)
    per_pose = KEEPER.known / 600
    assert 400 * per_pose > 0.25 * ROOM  # more than is dropped at once
    sweep(used, 200)  # kept already; only asked for again
    call("CAMBER", used, 99.5, 0.0)  # and the clock goes on
    sweep(used, 200)
    more = int((ROOM - KEEPER.known) / per_pose) + 20
    sweep(new, more)
    assert not corner_of(old)._kept.size
    asked = []
    pose = Linkage.pose
    monkeypatch.setattr(Linkage, "pose", lambda *given: asked.append(given) or pose(*given))
    sweep(used, 200)
    sweep(new, more)
    assert asked == []
    sweep(old, 200)
    assert len(asked) == 200


def test_one_car_alone_keeps_the_later_half_and_goes_on(little_room):
    block = _own_block(6.0)
    poses = int(3.0 * ROOM / (KEEPER.size_of("probe", (0.0, 0.0), Corner(block).pose(1.0, 1.0))))
    sweep(block, poses)
    shelf = corner_of(block)._kept.shelves["pose"]
    assert 0.3 * ROOM < corner_of(block)._kept.size <= ROOM
    assert (0.01 * poses, 0.0) in shelf
    assert (0.01, 0.0) not in shelf


def test_an_adjusted_corner_is_bounded_too(little_room):
    adjusted = AdjustedCorner(Corner(EXAMPLE), {"upper arm": Vec(0.0, 1.0, 0.0)})
    for i in range(4000):
        adjusted.pose(0.01 * i, 0.0)
    assert 0 < len(adjusted._kept.shelves["pose"]) < 2000
    assert adjusted._kept.size <= ROOM
    assert adjusted.pose(0.0, 0.0) is not adjusted.drawn


def test_corners_that_are_gone_do_not_count():
    keeper = Keeper(most=1000.0)
    keeper.sizes[None, "number"] = 100.0
    gone = Store(None, keeper)
    for i in range(9):
        gone.get("number", (float(i),), lambda number: number)
    del gone
    gc.collect()
    store = Store(None, keeper)
    for i in range(6):
        store.get("number", (float(i),), lambda number: number)
    assert len(store.shelves["number"]) == 6
    assert keeper.known == 600.0


def test_all_the_room_is_some_hundred_megabytes():
    assert KEEPER.most == kept.MOST == 100e6
