"""Back-ups, and the way from one database to the other and back: every row arrives, or nothing changes."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC, date, datetime, timedelta

import pytest
from sqlalchemy import select

from counter import shelf, shop
from counter.shelf._demo import demo_rows
from counter.shop import StoreProblem, open_store
from counter.shop._printed import MOST_A_DAY, Noted, note, noted, unseen_after
from counter.shop._store import close_all
from counter.shop._tables import metadata
from tests.shop.test_log import SOLD, slip


@pytest.fixture(scope="module")
def plan(catalogue):
    rows = demo_rows(catalogue, 60)
    return shelf.plan_import("demo", rows, shelf.columns_of(rows), shelf.Matcher(catalogue))


def fill(data, plan):
    """Put something into every corner of a store."""
    from datetime import UTC, date, datetime

    from counter.training import add_trainee, assign

    store = open_store(data)
    shelf.put(store, plan)
    for n in range(4):
        shop.add_slip(store, slip(f"k{n}"), [SOLD], f"Customer {n}", f"customer {n}")
    shop.add_wish(store, "w", shop.Wish("2026-11-25T10:00:00", "2026-11-25", None, "something", 1))
    shop.put_setting(store, "shop_name", "Corner shop")
    who = add_trainee(data, "Ola", datetime(2031, 1, 1, tzinfo=UTC))
    assign(data, who.id, "G23", datetime(2031, 1, 1, tzinfo=UTC))
    by = {"who": "Kim", "on": date(2026, 3, 2), "how": "caliper"}
    shop.confirm(data, kind="lamp", of="G24q-3/26/quad", part="length_mm", value=163.5, **by)
    return store


def content(store):
    with store.reading() as connection:
        tables = [table for table in metadata.sorted_tables if table.name != "revisions"]
        return {table.name: sorted(map(tuple, connection.execute(select(table))), key=repr) for table in tables}


def same(found, before):
    """Whether all came back; what no longer comes back is the numbers given since."""
    return {**found, "numbers": before["numbers"], "left_out": before["left_out"]} == before


def test_sound_store_has_no_faults(shop_data, plan):
    fill(shop_data, plan)
    assert shop.check_store(shop_data) == []
    said = shop.describe(shop_data)
    assert said["rows"]["slips"] == 4
    assert said["bytes"] > 1000
    assert said["waiting"] == 0


def test_slip_that_was_taken_out_behind_the_programs_back_is_found(data, plan):
    store = fill(data, plan)
    with store.writing() as connection:
        connection.exec_driver_sql("DROP TRIGGER slips_no_delete")
        connection.exec_driver_sql("DROP TRIGGER slip_items_no_delete")
        for table in ("slip_items", "slip_names", "slips"):
            connection.exec_driver_sql(f"DELETE FROM {table} WHERE number = 2")
    assert shop.check_store(data) == ["4 slip numbers were given and 3 slips are there"]


def test_back_up_comes_back(shop_data, plan, tmp_path):
    before = content(fill(shop_data, plan))
    shop.back_up(shop_data, tmp_path / "back-up.db")
    store = open_store(shop_data)
    shop.add_slip(store, slip("after"), [])
    shop.bring_back(store)
    kept, out = shop.restore(shop_data, tmp_path / "back-up.db")
    assert [(one.first, one.last) for one in out] == [(5, 5)]
    assert same(content(open_store(shop_data)), before)
    assert shop.check_store(shop_data) == []
    assert shelf.find(open_store(shop_data), "g24q")
    assert shop.add_slip(open_store(shop_data), slip("next"), []) == 6
    assert shop.check_store(shop_data) == []
    with pytest.raises(StoreProblem, match="only grows"), open_store(shop_data).writing() as connection:
        connection.exec_driver_sql("DELETE FROM slip_items")
    with closing(sqlite3.connect(kept)) as aside:
        assert aside.execute("SELECT count(*) FROM slips").fetchone() == (5,)


def test_back_up_writes_over_nothing(data, plan, tmp_path):
    fill(data, plan)
    (tmp_path / "there.db").write_text("mine")
    with pytest.raises(StoreProblem, match="is there already"):
        shop.back_up(data, tmp_path / "there.db")
    assert (tmp_path / "there.db").read_text() == "mine"


@pytest.mark.parametrize("raw", [b"", b"text", b"SQLite format 3\x00" + b"\x01" * 5000])
def test_what_is_no_back_up_is_refused_and_changes_nothing(data, plan, tmp_path, raw):
    before = content(fill(data, plan))
    (tmp_path / "odd.db").write_bytes(raw)
    with pytest.raises(StoreProblem, match="back-up"):
        shop.restore(data, tmp_path / "odd.db")
    assert content(open_store(data)) == before


def test_damaged_store_is_kept_and_replaced(data, plan, tmp_path):
    before = content(fill(data, plan))
    shop.back_up(data, tmp_path / "back-up.db")
    close_all()
    for tail in ("-wal", "-shm"):
        (data / f"shop.db{tail}").unlink(missing_ok=True)
    (data / "shop.db").write_bytes(b"damaged" * 1000)
    kept, out = shop.restore(data, tmp_path / "back-up.db")
    assert [(one.first, one.last) for one in out] == [(5, 1004)], "nobody can look what was given, so well beyond"
    assert kept.read_bytes() == b"damaged" * 1000
    assert same(content(open_store(data)), before)


def test_store_that_vanished_comes_back_from_its_back_up(data, plan, tmp_path):
    import shutil

    before = content(fill(data, plan))
    shop.back_up(data, tmp_path / "back-up.db")
    shutil.rmtree(data)
    with pytest.raises(StoreProblem):
        open_store(data).reading().__enter__()
    assert shop.restore(data, tmp_path / "back-up.db").kept is None
    assert same(content(open_store(data)), before)


def test_there_and_back_again(server, data, plan):
    before = content(fill(data, plan))
    url = server.fresh()
    moved = shop.move(data, url)
    assert moved["slips"] == 4
    assert open_store(data).where.shown.startswith("postgresql")
    assert content(open_store(data)) == before
    assert shop.add_slip(open_store(data), slip("there"), [SOLD]) == 5
    shelf.put(open_store(data), plan)
    after = content(open_store(data))
    back = data / "back.db"
    shop.move(data, str(back))
    assert open_store(data).where.file == back
    assert content(open_store(data)) == after
    assert shop.check_store(data) == []


def test_move_into_a_store_that_holds_something_is_refused(server, data, plan, tmp_path, monkeypatch):
    fill(data, plan)
    url = server.fresh()
    monkeypatch.setenv("COUNTER_STORE", url)
    shop.add_slip(open_store(tmp_path), slip("theirs"), [])
    monkeypatch.delenv("COUNTER_STORE")
    with pytest.raises(StoreProblem, match="already holds"):
        shop.move(data, url)
    assert open_store(data).where.file == data.absolute() / "shop.db"


def test_till_that_gave_more_numbers_lifts_a_store_that_was_set_back(shop_data, plan, tmp_path, monkeypatch):
    fill(shop_data, plan)
    shop.back_up(shop_data, tmp_path / "back-up.db")
    other = str(tmp_path / "other machine")
    with monkeypatch.context() as there:
        there.setenv("COUNTER_LOCAL", other)
        assert shop.add_slip(open_store(shop_data), slip("far"), []) == 5
        assert shop.add_slip(open_store(shop_data), slip("farther"), []) == 6
    set_back(open_store(shop_data), 4)
    monkeypatch.setenv("COUNTER_LOCAL", other)
    assert shop.add_slip(open_store(shop_data), slip("next"), []) == 7
    assert [(one.first, one.last) for one in shop.numbers_left_out(open_store(shop_data))] == [(5, 6)]
    assert shop.check_store(shop_data) == []


def test_look_alone_lifts_a_store_that_was_set_back(data, plan):
    store = fill(data, plan)
    shop.add_slip(store, slip("far"), [])
    set_back(store, 4)
    shop.look(data)
    assert [(one.first, one.last) for one in shop.numbers_left_out(store)] == [(5, 5)]
    shop.look(data)
    assert len(shop.numbers_left_out(store)) == 1


def set_back(store, last):
    """Set a store back as if an older file had been copied over it by hand."""
    with store.writing() as connection:
        for guard in (f"{table}_no_delete" for table in ("slips", "slip_items")):
            if store.is_sqlite:
                connection.exec_driver_sql(f"DROP TRIGGER {guard}")
        if not store.is_sqlite:
            connection.exec_driver_sql("SET LOCAL session_replication_role = replica")
        for table in ("slip_items", "slip_names", "slips"):
            connection.exec_driver_sql(f"DELETE FROM {table} WHERE number > {last}")
        connection.exec_driver_sql(f"UPDATE numbers SET next = {last + 1} WHERE name = 'slip'")


def test_highest_number_stays_noted_whoever_writes_last(data):
    note(data, 12)
    note(data, 11)
    assert noted(data).number == 12


def test_numbers_given_unseen_are_reckoned_by_the_days_since():
    today = datetime.now(UTC).date()
    lately, long_ago = Noted(40, today), Noted(60, today - timedelta(days=3))
    assert unseen_after(lately, long_ago) == 40 + MOST_A_DAY
    assert unseen_after(Noted(0, date.min), long_ago) == 60 + 4 * MOST_A_DAY
    assert unseen_after(lately, Noted(5000, today - timedelta(days=9))) == 5000


def test_left_out_number_that_a_slip_has_is_found(data, plan):
    store = fill(data, plan)
    with store.writing() as connection:
        connection.exec_driver_sql("INSERT INTO left_out VALUES (3, 3, 'now', 'no reason')")
    assert any("left out, and a slip has one" in one for one in shop.check_store(data))


def test_store_of_an_older_version_is_brought_up_to_date(data, plan):
    store = fill(data, plan)
    with store.writing() as connection:
        connection.exec_driver_sql("DROP TABLE left_out")
        connection.exec_driver_sql("UPDATE alembic_version SET version_num = '0003'")
    close_all()
    assert shop.add_slip(open_store(data), slip("new"), []) == 5
    assert shop.check_store(data) == []
