"""The log on both databases: numbered without gaps, once each, only growing, and names that can be forgotten."""

from __future__ import annotations

from datetime import date

import pytest
from sqlalchemy import exc, text

from counter import shop
from counter.shop import Parked, Return, StoreProblem, Wish, open_store

SOLD = {
    "code": "TV100",
    "description": "lamp",
    "bin": "A1",
    "lamp": "G24q-3/26/quad",
    "quantity": 2,
    "price_cents": 850,
}


def slip(key, **changes):
    facts = {
        "key": key,
        "at": "2026-11-25T10:00:00.000+00:00",
        "day": "2026-11-25",
        "till": "till 1",
        "lamp": "G24q-3/26/quad",
        "base": "G24q-3",
        "watts": 26.0,
        "body": {"headline": "G24q-3"},
        "words": " g24q 3 cfq26w 26w tv100",
    }
    return facts | changes


@pytest.fixture
def store(shop_data):
    return open_store(shop_data)


def test_numbers_follow_each_other(store):
    assert [shop.add_slip(store, slip(f"k{n}"), [SOLD]) for n in range(5)] == [1, 2, 3, 4, 5]


def test_slip_that_is_in_keeps_its_number(store):
    first = shop.add_slip(store, slip("same"), [SOLD])
    assert shop.add_slip(store, slip("same"), [SOLD]) == first
    assert shop.add_slip(store, slip("next"), []) == first + 1


def test_slip_that_fails_leaves_no_gap(store):
    with pytest.raises(exc.DBAPIError):
        shop.add_slip(store, slip("bad"), [SOLD | {"quantity": None}])
    assert shop.add_slip(store, slip("good"), []) == 1


@pytest.mark.parametrize("table", ["slips", "slip_items", "wishes", "returns", "left_out"])
@pytest.mark.parametrize("what", ["DELETE FROM {}", "UPDATE {} SET {} = 'x'"])
def test_log_only_grows(store, table, what):
    shop.add_slip(store, slip("k"), [SOLD])
    shop.add_wish(store, "w", Wish("2026-11-25T10:00:00", "2026-11-25", None, "something", 1))
    shop.add_return(store, "r", Return("2026-11-25T10:00:00", "2026-11-25", 1, None, None, "other", ""))
    with store.writing() as connection:
        connection.execute(text("INSERT INTO left_out VALUES (9, 9, 'now', 'tried')"))
    column = {"left_out": "reason", "slips": "till", "slip_items": "code", "wishes": "text", "returns": "note"}[table]
    with pytest.raises(StoreProblem, match="only grows"), store.writing() as connection:
        connection.execute(text(what.format(table, column)))


FOUND = [
    ("g24q", [2, 1]),
    ("2026-11-2", [2, 1]),
    ("nord", [2]),
    ("#2", [2]),
    ("cfq26w nord", [2]),
    ("100%", []),
    ("x", []),
]


@pytest.mark.parametrize(("words", "numbers"), FOUND)
def test_slips_are_found_by_what_is_known_of_them(store, words, numbers):
    shop.add_slip(store, slip("a"), [SOLD])
    shop.add_slip(store, slip("b", day="2026-11-26"), [SOLD], "Ola Nordberg", "ola nordberg")
    assert [one.number for one in shop.find_slips(store, words.split())] == numbers


def test_name_is_forgotten_and_the_slip_stays(store, shop_data):
    shop.add_slip(store, slip("a"), [], "Ola Nordberg", "ola nordberg")
    assert shop.forget_name(store, "ola nordberg") == 1
    (kept,) = shop.find_slips(store)
    assert (kept.number, kept.customer) == (1, "")
    files = [path.read_bytes() for path in shop_data.rglob("*") if path.is_file()]
    assert not any(b"Nordberg" in content for content in files)


def test_names_go_with_age(store):
    shop.add_slip(store, slip("old", day="2024-01-01"), [], "Ola", "ola")
    shop.add_slip(store, slip("new"), [], "Kim", "kim")
    assert shop.forget_names_before(store, "2025-01-01") == 1
    assert [one.customer for one in shop.find_slips(store)] == ["Kim", ""]


def test_names_are_kept_as_long_as_the_shop_has_set(store):
    shop.add_slip(store, slip("old", day="2026-11-01"), [], "Ola", "ola")
    shop.add_slip(store, slip("new", day="2026-11-25"), [], "Kim", "kim")
    shop.put_setting(store, "names_kept_days", 0)
    assert shop.forget_old_names(store, date(2026, 11, 26)) == 0
    shop.put_setting(store, "names_kept_days", 10)
    assert shop.forget_old_names(store, date(2026, 11, 26)) == 1
    assert [one.customer for one in shop.find_slips(store)] == ["Kim", ""]


def test_month_says_what_sells_what_misses_and_what_comes_back(store):
    for key in "ab":
        shop.add_slip(store, slip(key), [SOLD])
    shop.add_slip(store, slip("before", day="2026-10-31"), [SOLD])
    shop.add_wish(store, "w", Wish("2026-11-25T10:00:00", "2026-11-25", "G23/9/twin", "9 W G23", 3))
    mixed = Return("2026-11-25T10:00:00", "2026-11-25", 1, "G24q-3/26/quad", "GX24q-3/26/triple", "wrong base", "")
    shop.add_return(store, "r", mixed)
    shop.add_return(store, "r", mixed)
    found = shop.month(store, "2026-11")
    assert found.slips == 2
    assert found.sold == (("G24q-3/26/quad", 4),)
    assert found.missing == (("G23/9/twin", 3),)
    assert found.came_back == (("wrong base", 1),)
    assert found.mix_ups == (("G24q-3/26/quad", "GX24q-3/26/triple", 1),)
    shop.add_wish(store, "later", Wish("2026-12-01T10:00:00", "2026-12-01", None, "wire", 1))
    assert shop.months(store) == ["2026-12", "2026-11", "2026-10"]
    assert shop.sold_lamps(store) == {"G24q-3/26/quad": 3}
    assert shop.mixed_up(store) == [("G24q-3/26/quad", "GX24q-3/26/triple", 1)]


def test_settings_of_the_shop(store):
    assert shop.setting(store, "sales weigh") is True
    shop.put_setting(store, "sales weigh", False)
    shop.put_setting(store, "shop_name", "Corner shop")
    assert shop.setting(store, "sales weigh") is False
    with pytest.raises(KeyError):
        shop.put_setting(store, "no such", 1)


# -- the journal


def test_slips_of_a_day_without_the_store_go_in_once_it_is_back(server, data, monkeypatch):
    monkeypatch.setenv("COUNTER_STORE", server.fresh())
    assert shop.keep_slip(data, slip("before"), [SOLD]).number == 1
    server.stop()
    try:
        for n in range(3):
            kept = shop.keep_slip(data, slip(f"meanwhile {n}"), [SOLD])
            assert kept.number is None
            assert "cannot be reached" in kept.problem.what
        assert shop.waiting(data) == 3
    finally:
        server.start()
    assert shop.keep_slip(data, slip("after"), [SOLD]).number == 5
    assert shop.waiting(data) == 0
    found = [(one.number, one.key) for one in reversed(shop.find_slips(open_store(data)))]
    assert found == [(1, "before"), (2, "meanwhile 0"), (3, "meanwhile 1"), (4, "meanwhile 2"), (5, "after")]
    assert shop.check_store(data) == []


def test_entry_that_went_in_before_the_machine_died_goes_in_once(data):
    store = open_store(data)
    shop.add_slip(store, slip("k"), [SOLD])
    from counter.shop._journal import _folder

    _folder(data).mkdir(parents=True)
    entry = '{"kind": "slip", "slip": %s, "items": [], "customer": "", "folded": ""}'
    import json

    (_folder(data) / "k.json").write_text(entry % json.dumps(slip("k")))
    (_folder(data) / "bad.json").write_text("{")
    assert shop.flush(store) == 1
    assert len(shop.find_slips(store)) == 1
    assert shop.waiting(data) == 0
    assert (_folder(data) / "refused" / "bad.json").exists()


def test_neither_store_nor_disk_is_said(data, monkeypatch):
    monkeypatch.setenv("COUNTER_STORE", "postgresql://clerk@127.0.0.1:9/shop")

    def full(path, content):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("counter.shop._journal.write_atomic", full)
    with pytest.raises(StoreProblem, match="Keep it on paper"):
        shop.keep_slip(data, slip("k"), [])


# -- parked cases


def test_parked_cases_wait_in_order_and_survive(data):
    for n in range(3):
        shop.park(data, Parked(f"key{n}", f"2026-11-25T10:0{n}:00", f"case {n}", {"marks": str(n)}, ({"code": "a"},)))
    shop.unpark(data, "key1")
    assert [one.headline for one in shop.parked(data)] == ["case 0", "case 2"]
    assert shop.parked(data)[0].items == ({"code": "a"},)


def wait_here(data, key, day, customer, **more):
    """Let a slip wait on this machine, as while a server cannot be reached."""
    from counter.shop._journal import _write

    entry = {"kind": "slip", "slip": slip(key, day=day, **more), "items": [SOLD]}
    entry |= {"customer": customer, "folded": customer.casefold()}
    _write(data, key, entry, StoreProblem("gone", "away", "wait"))


def test_a_name_on_a_slip_that_waits_is_forgotten_too_and_the_slip_keeps_its_turn(store):
    from counter.shop._journal import REFUSED, _folder

    data = store.where.data
    for key, customer in (("a" * 32, "Ola Nordberg"), ("b" * 32, "Kim"), ("c" * 32, "Ola Nordberg")):
        wait_here(data, key, "2026-11-25", customer)
    put_aside = _folder(data) / REFUSED / f"{'c' * 32}.json"
    put_aside.parent.mkdir()
    (_folder(data) / put_aside.name).replace(put_aside)
    assert shop.forget_name(store, "ola nordberg") == 2
    assert not any(b"Nordberg" in file.read_bytes() for file in _folder(data).rglob("*.json"))
    assert shop.flush(store) == 2
    assert [(one.key[0], one.customer) for one in shop.find_slips(store)] == [("b", "Kim"), ("a", "")]


def test_a_forgotten_name_does_not_come_back_from_a_machine_where_its_slip_waited(store):
    shop.forget_name(store, "ola nordberg")
    for key, at, customer in (
        ("a" * 32, "2026-11-25T10:00:00+01:00", "Ola Nordberg"),
        ("b" * 32, "2126-11-25T10:00:00+01:00", "Ola Nordberg"),  # who comes again is a customer again
        ("c" * 32, "2026-11-25T10:00:00+01:00", "Kim"),
    ):
        wait_here(store.where.data, key, "2026-11-25", customer, at=at)
    assert shop.flush(store) == 3
    assert {one.key[0]: one.customer for one in shop.find_slips(store)} == {"a": "", "b": "Ola Nordberg", "c": "Kim"}


def test_names_on_slips_that_wait_go_with_age(store):
    for key, day, customer in (("a" * 32, "2024-01-01", "Ola"), ("b" * 32, "2026-11-25", "Kim")):
        wait_here(store.where.data, key, day, customer)
    assert shop.forget_names_before(store, "2025-01-01") == 1
    shop.flush(store)
    assert {one.customer for one in shop.find_slips(store)} == {"", "Kim"}
