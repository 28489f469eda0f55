"""The training room beside the counter: people, rounds, the trainer's view, and the one line at the counter."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMessageBox

from counter.desk import Case
from counter.training import add_trainee, progress, remove_trainee, trainees, unfinished
from counter.window.training.frame import BOARD, CARD, PRACTICE, STANDING, SUMMARY
from tests.window.hands import store_answered

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")
START = datetime(2031, 3, 3, 8, tzinfo=UTC)
SETTLED = "CFQ18W/G24q/841"


class Clock:
    """A clock that stands still until it is moved."""

    def __init__(self):
        self.now = START

    def __call__(self):
        return self.now

    def pass_by(self, **time):
        self.now += timedelta(**time)


@pytest.fixture
def clock():
    return Clock()


@pytest.fixture
def counter(windows, clock):
    """Return the counter with a settled case, its training by the test's clock."""
    made = windows("light", Case(marks=SETTLED))
    made.counter.training.clock = clock
    return made


@pytest.fixture
def room(counter):
    counter.counter.training.enter()
    made = counter.counter.training.room
    assert QTest.qWaitForWindowActive(made, 5000)
    store_answered(counter)
    return made


@pytest.fixture
def ada(room):
    room.people.name.setText("Ada")
    room.people.add.click()
    store_answered(room.parent())
    return room.who


def turn(room, page):
    """Turn to a page, once the store has told what stands on it."""
    room._open(page)
    store_answered(room.parent())


def begin(room, minutes):
    """Start a round, once the store has told the record."""
    room.start_round(minutes)
    store_answered(room.parent())


def press(room, key, modifier=Qt.KeyboardModifier.NoModifier):
    QTest.keyClick(room.focusWidget() or room, key, modifier)
    store_answered(room.parent() or room)
    QApplication.processEvents()


def files(folder):
    return {
        path.name: path.read_bytes() for path in folder.iterdir() if path.is_file() and "shop.db" not in path.name
    }


def test_f4_opens_the_room_and_goes_back(counter):
    press(counter, Qt.Key.Key_F4)
    room = counter.counter.training.room
    assert room.isVisible()
    assert QTest.qWaitForWindowActive(room, 5000)
    press(room, Qt.Key.Key_F4)
    assert not room.isVisible()


def test_escape_goes_back_too(room):
    press(room, Qt.Key.Key_Escape)
    assert not room.isVisible()


def test_the_menu_has_it(counter):
    assert any("Training" in action.text() for action in counter.answer.menu.menu().actions())


def test_closing_the_counter_closes_the_room(counter, room):
    counter.close()
    assert not room.isVisible()


def test_a_closed_counter_makes_nothing_ahead_any_more(qtbot, counter):
    counter.counter.training._warm()
    assert counter.counter.training.warmer.is_busy
    counter.close()
    assert not counter.counter.training.warmer.is_busy
    counter.counter.training._warm()  # as the timer does that was set before
    assert not counter.counter.training.warmer.is_busy


def test_the_room_is_made_while_the_counter_is_quiet(qtbot, counter):
    qtbot.waitUntil(
        lambda: counter.counter.training.room is not None and not counter.counter.training.warmer.is_busy,
        timeout=30_000,
    )
    assert counter.counter.training.room.catalogue is counter.catalogue
    assert not counter.counter.training.room.isVisible()


def test_a_lesson_by_somebody_removed_is_asked_without_a_record(counter, room, ada):
    remove_trainee(room.data, ada)
    counter.detail.learn.click()
    assert room.session.card.family == "G24q"
    press(room, Qt.Key.Key_1)
    assert "removed meanwhile" in room.said.text()
    press(room, Qt.Key.Key_Escape)
    assert "Nothing of this was written down" in room.summary.again.text()
    assert room.who == ""


def test_practice_leaves_the_counter_as_it_was(counter, room, ada):
    counter.counter.desk_cases.keep_open()
    case, kept = counter.case, files(counter.data)
    begin(room, 5)
    for key in (Qt.Key.Key_1, Qt.Key.Key_Return, Qt.Key.Key_2, Qt.Key.Key_F2, Qt.Key.Key_Escape):
        press(room, key)
    assert counter.case == case
    assert files(counter.data) == kept


def test_names_are_said_to_stay_here(room):
    from counter.window.training.people_pane import PRIVACY

    assert "stay in the shop's own store" in PRIVACY
    assert PRIVACY in [label.text() for label in room.people.findChildren(type(room.said))]


def test_a_name_is_added_by_keyboard(room):
    QTest.keyClicks(room.people.name, "Bo 2")
    press(room, Qt.Key.Key_Return)
    assert [one.name for one in trainees(room.data)] == ["Bo 2"]
    assert room.start.title.text() == "Bo 2: a round of"


def test_settings_hold_no_name(counter, room, ada):
    room.roster.set_at_counter(True)
    counter.settings.sync()
    assert b"Ada" not in Path(counter.settings.fileName()).read_bytes()


@pytest.mark.parametrize(("button", "left"), [("Remove all", []), ("Keep", ["Ada"])])
def test_removing_is_asked_once(room, ada, button, left):
    room.people.ask_remove()
    box = room.findChild(QMessageBox)
    assert "Ada" in box.text()
    assert box.defaultButton().text() == "Keep"
    next(one for one in box.buttons() if one.text() == button).click()
    store_answered(room.parent())
    assert [one.name for one in trainees(room.data)] == left


def test_whoever_is_removed_is_no_longer_at_the_counter(counter, room, ada):
    room.roster.set_at_counter(True)
    store_answered(counter)
    room.roster.remove(ada)
    store_answered(counter)
    assert counter.settings.value("at_counter") == ""
    assert counter.counter.training.line.isHidden()


@pytest.mark.parametrize(("key", "minutes"), [(1, 5), (2, 10), (3, 20), (4, None)])
def test_a_number_starts_a_round(room, ada, key, minutes):
    press(room, Qt.Key.Key_0 + key)
    assert room.pages.currentIndex() == CARD
    length = room.session.ends and (room.session.ends - room.session.started)
    assert length == (timedelta(minutes=minutes) if minutes else None)


def test_number_answers_and_enter_goes_on(room, ada, clock):
    begin(room, 5)
    card = room.session.card
    clock.pass_by(seconds=4)
    press(room, Qt.Key.Key_1 + card.answer)
    kept = progress(room.data, ada).answers
    assert [(one.card, one.seconds, one.is_right) for one in kept] == [(card.id, 4.0, True)]
    assert room.cards.reason.said.text() == "Right."
    assert room.bar.count.text() == "1 of 1 right"
    press(room, Qt.Key.Key_Space)
    assert room.session.card.id != card.id


def test_a_second_number_is_not_a_second_answer(room, ada):
    begin(room, 5)
    press(room, Qt.Key.Key_1)
    press(room, Qt.Key.Key_2)
    assert len(progress(room.data, ada).answers) == 1


def test_nought_says_i_do_not_know(room, ada):
    begin(room, 5)
    press(room, Qt.Key.Key_0)
    assert progress(room.data, ada).answers[0].said == "do not know"
    assert room.cards.reason.said.text() == "Not known yet."


def test_the_reason_and_the_right_answer_are_told(room, ada):
    begin(room, 5)
    card = room.session.card
    press(room, Qt.Key.Key_1 + card.worth.index(min(card.worth)))
    assert room.cards.reason.why.text() in card.why
    assert room.cards.choices.buttons[card.answer].is_right


def test_a_round_ends_with_its_time(room, ada, clock):
    begin(room, 5)
    press(room, Qt.Key.Key_1)
    clock.pass_by(minutes=6)
    press(room, Qt.Key.Key_Return)
    assert room.pages.currentIndex() == SUMMARY
    press(room, Qt.Key.Key_Return)
    assert room.pages.currentIndex() == PRACTICE


def test_time_at_the_counter_does_not_count(room, ada, clock):
    begin(room, 5)
    clock.pass_by(seconds=3)
    press(room, Qt.Key.Key_F4)
    clock.pass_by(minutes=30)
    room.enter(room.catalogue)
    clock.pass_by(seconds=2)
    press(room, Qt.Key.Key_1)
    assert progress(room.data, ada).answers[0].seconds == pytest.approx(5)
    press(room, Qt.Key.Key_Return)
    assert room.pages.currentIndex() == CARD


@pytest.fixture
def cut_off(windows, counter, room, ada, clock):
    """Return a second opening of the program, as after a kill 90 s and one right answer into ten minutes."""
    begin(room, 10)
    clock.pass_by(seconds=90)
    press(room, Qt.Key.Key_1 + room.session.card.answer)
    counter.settings.sync()
    clock.pass_by(minutes=20)
    second = windows("light")
    second.counter.training.clock = clock
    second.counter.training.enter()
    assert QTest.qWaitForWindowActive(second.counter.training.room, 5000)
    store_answered(second)
    return second.counter.training.room


def test_a_round_cut_off_is_gone_on_with_by_one_key(cut_off, room, ada, clock):
    offered = cut_off.start.rounds.buttons[4]
    assert offered.text() == "go on with the 10 minutes cut off before: 8 min left, 1 of 1 right so far"
    press(cut_off, Qt.Key.Key_5)
    assert cut_off.pages.currentIndex() == CARD
    assert cut_off.bar.count.text() == "1 of 1 right"
    assert cut_off.bar.line.share == pytest.approx(0.15)
    press(cut_off, Qt.Key.Key_0)
    first, second = progress(cut_off.data, ada).answers
    assert (second.round, second.point != first.point) == (first.round, True)
    clock.pass_by(seconds=511)
    press(cut_off, Qt.Key.Key_Return)
    assert cut_off.summary.title.text() == "1 of 2 right"
    assert "1 of them came before the round was cut off" in cut_off.summary.again.text()
    assert unfinished(progress(cut_off.data, ada), clock()) is None


def test_another_round_may_be_started_instead(cut_off, ada, clock):
    press(cut_off, Qt.Key.Key_1)
    assert cut_off.bar.count.text() == "0 of 0 right"
    press(cut_off, Qt.Key.Key_1)
    press(cut_off, Qt.Key.Key_Escape)
    press(cut_off, Qt.Key.Key_Return)
    assert cut_off.start.rounds.buttons[4].isHidden()


def test_a_round_that_was_ended_is_not_offered(room, ada):
    begin(room, 10)
    press(room, Qt.Key.Key_1)
    press(room, Qt.Key.Key_Escape)
    press(room, Qt.Key.Key_Return)
    assert len(room.start.rounds.buttons) == 4
    press(room, Qt.Key.Key_5)
    assert room.pages.currentIndex() == PRACTICE


def test_escape_ends_a_round_and_keeps_its_answers(room, ada):
    begin(room, None)
    press(room, Qt.Key.Key_1)
    press(room, Qt.Key.Key_Escape)
    assert room.pages.currentIndex() == SUMMARY
    assert len(progress(room.data, ada).answers) == 1


def test_removed_meanwhile_is_said(room, ada):
    begin(room, 5)
    remove_trainee(room.data, ada)
    press(room, Qt.Key.Key_1)
    assert "removed meanwhile" in room.said.text()
    assert room.session.source is None


def test_a_full_disk_is_said_and_the_card_stays_open(room, ada, monkeypatch):
    begin(room, 5)
    monkeypatch.setattr("counter.training._round.write_record", _full)
    press(room, Qt.Key.Key_1)
    assert "could not be written" in room.said.text()
    assert room.session.is_open


def _full(*_):
    raise OSError("no space left")


def test_teach_me_this_asks_about_the_base_at_hand(counter):
    counter.detail.learn.click()
    room = counter.counter.training.room
    assert room.session.card.family == "G24q"
    assert room.bar.title.text() == "About G24q"


def test_teach_me_on_a_caution_asks_about_its_rule(counter):
    counter.cautions.teach.emit("uvc-in-lighting")
    room = counter.counter.training.room
    assert room.session.card.case.chosen.endswith("uv-c")
    assert room.bar.title.text() == "About germicidal lamp for a lighting fixture"


def test_a_rule_without_cards_teaches_the_base_at_hand(counter):
    counter.cautions.teach.emit("too-long")
    room = counter.counter.training.room
    assert room.session.card.family == "G24q"
    assert room.said.text().startswith("No lamp and fixture known here bring it up")
    assert "too-long" not in room.said.text()


@pytest.mark.parametrize("rule", ["led-type", "no-led-known"])
def test_that_no_case_brings_a_rule_about_is_said_at_once(counter, monkeypatch, rule):
    def searched(*_):
        raise AssertionError("nothing is to be looked for")

    monkeypatch.setattr("counter.training.cards._rule_cards._search", searched)
    counter.cautions.teach.emit(rule)
    assert "there is no question about it" in counter.counter.training.room.said.text()


def test_a_lesson_without_a_trainee_keeps_nothing(counter):
    counter.detail.learn.click()
    room = counter.counter.training.room
    press(room, Qt.Key.Key_1)
    press(room, Qt.Key.Key_Escape)
    assert "Nothing of this was written down" in room.summary.again.text()
    assert not (room.data / "training").exists()


def test_the_first_card_is_ready_before_it_is_asked_for(qtbot, room, ada):
    qtbot.waitUntil(lambda: room._first is not None)
    who, card = room._first
    press(room, Qt.Key.Key_1)
    assert (who, card) == (ada, room.session.card)


@pytest.mark.parametrize("tab", [STANDING, BOARD])
def test_tabs_by_key_with_and_without_anybody(room, tab):
    press(room, Qt.Key.Key_1 + tab, Qt.KeyboardModifier.ControlModifier)
    assert room.pages.currentIndex() == tab
    room.grab()
    room.roster.add("Ada")
    store_answered(room.parent())
    turn(room, tab)
    room.grab()


def test_the_bars_and_the_interval_are_named(room, ada):
    turn(room, STANDING)
    words = room.standing.bars.text()
    assert "Clopper-Pearson" in words
    assert "for ultraviolet and what does not go together over 90" in words


def test_everybody_has_mix_ups_together(room, clock):
    ids = [add_trainee(room.data, name, START).id for name in ("A", "B")]
    for who in ids:
        room.roster.who = who
        room.roster.show()
        store_answered(room.parent())
        begin(room, 5)
        card = room.session.card
        wrong = [at for at, worth in enumerate(card.worth) if worth < 1]
        room.session.choose(min(wrong, key=lambda at, card=card: card.values[at]))
        store_answered(room.parent())
        room.session.stop()
    turn(room, STANDING)
    told = []
    for whose in (0, 1):
        room.standing.whose.setCurrentIndex(whose)
        room.progress.show_pairs()
        store_answered(room.parent())
        told.append([row.times.text() for row in room.standing.pairs.rows if not row.isHidden()])
    assert told == [["1 time"], ["2 times"]]


def test_nobody_reads_ready_over_not_ready(room, ada):
    turn(room, STANDING)
    assert room.standing.title.text() == "Ada's shelf"
    assert "Ready for the counter: none yet" in room.standing.stands.text()
    assert room.windowTitle() == "Training"  # the system adds the program's name


def test_a_place_on_the_shelf_tells_more_and_practises(room, ada):
    turn(room, STANDING)
    place = next(one for one in room.standing.shelf.places if one.kept.family == "2G11")
    place.click()
    assert room.standing.told.text().startswith("2G11: not met yet; not ready yet")
    room.standing.learn.click()
    assert room.session.card.family == "2G11"


def test_a_family_is_assigned_and_taken_off(room, ada):
    turn(room, BOARD)
    room.board.family.setCurrentText("G24q")
    room.board.give.click()
    store_answered(room.parent())
    assert progress(room.data, ada).assigned == ("G24q",)
    assert room.board.give.text() == "Take it off"
    room.board.give.click()
    store_answered(room.parent())
    assert progress(room.data, ada).assigned == ()


def test_the_sheet_is_copied_and_saved(room, ada, tmp_path):
    turn(room, BOARD)
    sheet = room.board.results
    sheet.copy.click()
    assert QGuiApplication.clipboard().text().startswith("Training results: Ada")
    sheet.save_to(str(tmp_path / "out.pdf"))
    assert (tmp_path / "out.pdf").read_bytes().startswith(b"%PDF")
    sheet.save_to(str(tmp_path / "no folder" / "out.pdf"))
    assert sheet.said.text().startswith("not saved")


def test_the_sheet_is_printed(room, ada, tmp_path):
    printer = QPrinter()
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    turn(room, BOARD)
    room.board.results.print_on(printer)
    assert (tmp_path / "printed.pdf").read_bytes().startswith(b"%PDF")
    assert room.board.results.said.text() == "sent to the printer"


def test_the_line_at_the_counter_is_off_until_somebody_learns_there(counter, room, ada):
    assert counter.counter.training.line.isHidden()
    room.start.at_counter.setChecked(True)
    store_answered(counter)
    assert not counter.counter.training.line.isHidden()
    assert counter.counter.training.line.words.text() == "G24q-2 · 18\N{THIN SPACE}W: was this new to you, Ada?"


def test_a_case_is_kept_for_training_once(counter, room, ada):
    room.start.at_counter.setChecked(True)
    store_answered(counter)
    counter.counter.training.line.keep.click()
    store_answered(counter)
    assert "name-base/G24q" in progress(room.data, ada).from_cases
    counter.counter.next_customer()
    counter.counter.change(marks=SETTLED)
    assert counter.counter.training.line.keep.isHidden()


def test_no_is_not_asked_again(counter, room, ada):
    room.start.at_counter.setChecked(True)
    store_answered(counter)
    counter.counter.training.line.no.click()
    counter.counter.change(use="lighting")
    assert counter.counter.training.line.keep.isHidden()
    assert progress(room.data, ada).from_cases == ()


def test_an_unsettled_case_is_not_offered(counter, room, ada):
    room.start.at_counter.setChecked(True)
    store_answered(counter)
    counter.counter.next_customer()
    assert counter.counter.training.line.keep.isHidden()
    assert counter.counter.training.line.words.text() == "Ada learns here."


def test_whoever_learns_is_known_at_the_next_start(windows, counter, room, ada):
    room.start.at_counter.setChecked(True)
    store_answered(counter)
    counter.settings.sync()
    second = windows("light")
    second.counter.training._greet()
    store_answered(second)
    assert second.counter.training.line.name == "Ada"


@pytest.mark.parametrize("theme", ["dark", "light"])
def test_the_room_follows_the_palette(counter, room, ada, theme):
    begin(room, 5)
    counter.set_theme(theme)
    assert room.cards.picture.face.theme.name == theme
    room.grab()


def test_an_answer_that_waits_for_the_store_is_neither_lost_nor_taken_twice(room, ada):
    begin(room, 5)
    asked, jobs = room.session.card, []
    room.asking.ask = lambda *asked_for, keeps: jobs.append(asked_for)
    room.session.choose(0)
    room.session.choose(1)
    room.session.next()
    assert (len(jobs), room.session.card, room.session.given) == (1, asked, [])
    assert QTest.qWaitForWindowExposed(room)
    for _ in range(400):
        if room.said.text():
            break
        QTest.qWait(5)
    assert "asking the store" in room.said.text()
    job, then, _ = jobs[0]
    then(job())
    assert [one.choice for one in room.session.given] == [0]
    assert room.said.text() == ""


def test_an_answer_that_comes_after_the_round_was_left_shows_nothing(room, ada):
    begin(room, 5)
    jobs = []
    room.asking.ask = lambda *asked_for, keeps: jobs.append(asked_for)
    room.session.choose(0)
    room.session.stop()
    job, then, _ = jobs[0]
    then(job())
    assert room.session.given == []
    assert len(progress(room.data, ada).answers) == 1
