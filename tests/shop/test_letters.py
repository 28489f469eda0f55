"""Makers' codes in the store, on both databases: kept, undone, seen by other tills, taken over, tied to a list."""

from __future__ import annotations

import threading

import pytest
from sqlalchemy import text

from counter import marks, shelf, shop
from counter.marks import letters
from counter.marks.letters import LettersMean
from counter.shop import Return, open_store
from counter.shop._migrate import HEAD
from counter.shop._store import close_all
from tests.shop.test_log import SOLD, slip

QUAD = LettersMean(shape="quad", legs=4)
CODE = "F26XK/841"
MAKER = marks.HouseMaker(maker="Northlamp", codes={"NL-77": marks.HouseChoice(means="the tall one")})


def teach(store, word, means=QUAD, who="Ada"):
    change = lambda table: letters.teach(table, word, means, who=who, at="2026-11-02T10:00")  # noqa: E731
    return shop.change_letters(store, change, who=who, what=f"taught {word}")


def known(store):
    return {one.letters: one for one in shop.house_codes_of(store).letters.letters}


@pytest.fixture
def store(shop_data):
    return open_store(shop_data)


def revision(store):
    with store.reading() as connection:
        return store.revision(connection, "letters")


def test_taught_letters_are_read_by_every_till(store, catalogue):
    before = revision(store)
    teach(store, "XK")
    assert revision(store) == before + 1
    house = shop.load_house(store.where.data).codes.house
    assert marks.read(catalogue, f"{CODE}/4P", house).readings[0].lamps == ("G24q-3/26/quad",)
    (change,) = shop.letters_changes(store)
    assert (change.who, change.what) == ("Ada", "taught XK")


def test_changes_are_undone_one_by_one(store):
    teach(store, "XK")
    again = teach(store, "XK", LettersMean(pins=4))
    teach(store, "ZN")
    assert known(store)["XK"].means.stated() == {"pins": 4}
    assert shop.undo_letters(store, again.number).what == "taught XK"
    assert known(store)["XK"].means == QUAD
    assert set(known(store)) == {"XK", "ZN"}
    assert [shop.undo_letters(store).what for _ in range(2)] == ["taught ZN", "taught XK"]
    assert shop.undo_letters(store) is None
    assert known(store) == {}


def test_what_changes_nothing_is_no_change(store):
    done = shop.change_letters(store, lambda table: letters.forget(table, "XK"), who="Ada", what="forgot XK")
    assert done.number is None
    assert shop.letters_changes(store) == []


def test_two_tills_that_teach_at_once_lose_nothing(store):
    def till(name):
        for letter in "ABCDEFGHIJ":
            teach(store, f"X{name}{letter}", who=name)

    tills = [threading.Thread(target=till, args=(name,)) for name in "PQ"]
    for one in tills:
        one.start()
    for one in tills:
        one.join()
    assert len(known(store)) == 20
    assert len({one.number for one in shop.letters_changes(store)}) == 20


def plan(catalogue, name, *codes):
    rows = [shelf.Row(at, cells) for at, cells in enumerate((("code", "description"), *codes), 1)]
    return shelf.plan_import(name, rows, shelf.columns_of(rows), shelf.Matcher(catalogue))


def learned(name):
    return letters.KnownLetters(letters="ZN", means=QUAD, support=9, source="list", list_name=name)


def test_what_a_list_taught_goes_and_comes_with_it(store, catalogue):
    shelf.put(store, plan(catalogue, "spring", ("F26ZN/841", "26W quad 4-pin G24q-3")))
    teach(store, "XK")
    accept = lambda table: letters.accept(table, [learned("spring")])  # noqa: E731
    shop.change_letters(store, accept, who="Ada", what="from the list", of_stock=True)
    assert set(known(store)) == {"XK", "ZN"}
    seen = revision(store)
    shelf.put(store, plan(catalogue, "autumn", ("CFQ26W/G24q/841", "26W quad")))
    assert set(known(store)) == {"XK"}
    assert revision(store) > seen  # other tills are told
    shop.bring_back(store)
    assert set(known(store)) == {"XK", "ZN"}
    for name in ("autumn", "winter", "next spring"):
        shelf.put(store, plan(catalogue, name, ("CFQ26W/G24q/841", "26W quad")))
    with store.reading() as connection:
        assert connection.scalar(text("SELECT count(*) FROM letters")) == 1  # gone for good with its list


def test_old_files_are_taken_over_once_and_a_copy_is_kept(shop_data, catalogue):
    shop_data.mkdir()
    table = letters.teach(letters.LetterTable(), "XK", QUAD, who="Kim", at="2026-01-02T10:00")
    content = {
        letters.LETTERS_FILE: table.model_dump_json(),
        marks.HOUSE_FILE: marks.HouseTable(makers=(MAKER,)).model_dump_json(),
    }
    for name, said in content.items():
        (shop_data / name).write_text(said, "utf-8")
    remembered = shop.remembered_house(shop_data).codes  # the window's first look, before any store is open
    codes = shop.load_house(shop_data).codes
    assert codes == remembered == shop.HouseCodes((MAKER,), table)
    for name, said in content.items():
        assert not (shop_data / name).exists()
        assert (shop_data / "taken-over" / name).read_text("utf-8") == said
    for name, said in content.items():  # copied there again, as a folder that is synchronised does
        (shop_data / name).write_text(said, "utf-8")
    close_all()
    assert shop.load_house(shop_data).codes == codes
    assert shop.drop_maker(open_store(shop_data), "Northlamp") == 1
    assert shop.load_house(shop_data).codes.makers == ()


def test_an_old_file_that_cannot_be_read_stays_and_is_named(shop_data):
    shop_data.mkdir()
    (shop_data / letters.LETTERS_FILE).write_text('{"letters": 7}')
    teach(open_store(shop_data), "XK")
    found = shop.load_house(shop_data)
    assert [one.letters for one in found.codes.letters.letters] == ["XK"]
    assert "letters.json" in found.problems[0]
    assert (shop_data / letters.LETTERS_FILE).read_text() == '{"letters": 7}'


def test_a_store_that_is_gone_leaves_what_this_machine_saw_last(data):
    store = open_store(data)
    teach(store, "XK")
    codes = shop.load_house(data).codes
    close_all()
    (data / "shop.db").unlink()
    assert shop.load_house(data).codes == shop.remembered_house(data).codes == codes


def test_back_up_and_move_carry_them(shop_data, tmp_path, server):
    store = open_store(shop_data)
    teach(store, "XK")
    shop.put_makers(store, [MAKER], "Ada")
    sell(store, 1)
    held = (shop.house_codes_of(store), shop.letters_changes(store), shop.sold_here(store))
    shop.back_up(shop_data, tmp_path / "kept.db")
    teach(store, "ZN")
    shop.restore(shop_data, tmp_path / "kept.db")
    store = open_store(shop_data)
    assert (shop.house_codes_of(store), shop.letters_changes(store), shop.sold_here(store)) == held
    teach(store, "ZN")  # numbers of changes go on
    shop.undo_letters(store)
    other = str(tmp_path / "other.db") if not store.is_sqlite else server.fresh()
    shop.move(shop_data, other)


# -- codes seen before


def sell(store, number, *, marks_=CODE, verdict="sell", lamp="G24q-3/26/quad", day="2026-11-25"):
    body = {"headline": "G24q-3", "verdict": verdict, "case": {"marks": marks_}}
    return shop.add_slip(store, slip(f"k{number}", body=body, lamp=lamp, day=day), [SOLD])


def test_a_code_is_known_by_the_slips_it_stood_on(store):
    sell(store, 1)
    sell(store, 2, marks_="f26xk 841", day="2026-11-26")
    sell(store, 3, lamp="GX24q-3/26/triple")
    sell(store, 4, marks_="F9ZN/830", verdict="ask first")
    assert set(shop.sold_here(store)) == {"F26XK841"}
    first, second = shop.sold_here(store)["F26XK841"]
    assert first == ("G24q-3/26/quad", 2, "2026-11-26", 2, "TV100")
    assert (second.lamp, second.times) == ("GX24q-3/26/triple", 1)


@pytest.mark.parametrize(("why", "is_left"), [("wrong base", False), ("arrived broken", True)])
def test_what_came_back_as_the_wrong_lamp_is_no_answer_for_the_next(store, why, is_left):
    number = sell(store, 1)
    came = Return("2026-11-27T10:00:00", "2026-11-27", number, "G24q-3/26/quad", "GX24q-3/26/triple", why, "")
    shop.add_return(store, "r1", came)
    assert bool(shop.sold_here(store)) is is_left


def test_own_sales_switched_off_lead_nothing(store):
    sell(store, 1)
    assert shop.load_sold(store.where.data)
    shop.put_setting(store, "sales weigh", False)
    assert shop.load_sold(store.where.data) == {}


def test_a_store_of_the_first_version_is_brought_up_to_date(store, shop_data):
    sell(store, 1)
    came = Return("2026-11-27T10:00:00", "2026-11-27", 2, "G24q-3/26/quad", None, "wrong watts", "")
    sell(store, 2, marks_="F18QQ/827")
    shop.add_return(store, "r1", came)
    with store.writing() as connection:
        for table in ("letters", "letter_changes", "house_codes", "sold_codes"):
            connection.execute(text(f"DROP TABLE {table}"))
        connection.execute(text("DELETE FROM numbers WHERE name = 'letters'"))
        connection.execute(text("CREATE TABLE letters (letters VARCHAR(80) PRIMARY KEY, body JSON)"))
        connection.execute(text("UPDATE alembic_version SET version_num = '0001'"))
    close_all()
    again = open_store(shop_data)
    with again.reading() as connection:
        assert connection.scalar(text("SELECT version_num FROM alembic_version")) == HEAD
    assert set(shop.sold_here(again)) == {"F26XK841"}
    assert teach(again, "XK").number == 1
