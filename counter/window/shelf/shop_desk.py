"""The shop beside the counter: asks the store through the worker and hands the answers to pane, slip and log."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, QTimer

from counter import shop
from counter.language import figure, tr, trn
from counter.window.shelf.list_learner import ListLearner
from counter.window.shelf.parked_bar import ParkedBar
from counter.window.shelf.shelf_pane import NO_CASE, NO_LIST, NOT_FOUND, NOTHING
from counter.window.shelf.slip_reopen import SlipReopen
from counter.window.shelf.slip_writer import SlipWriter
from counter.window.shelf.store_worker import StoreWorker

if TYPE_CHECKING:
    from collections.abc import Callable

    from counter.catalogue import Loaded
    from counter.desk import SoldCodes
    from counter.shelf import ShelfAnswer
    from counter.shop import LoadedHouse, StockList
    from counter.window.counter_room import Counter

OPEN_MS = 250  # after the counter is awake: the first keys come before the store
AGAIN_MS = 4000  # between two looks for what other tills changed
STILL_MS = 30  # a case that changes again within this is not asked about
SHELF_TAB = 4
WEIGHTY = ("confirmed", "slips", "settings")  # areas that change what the catalogue says
OF_CODES = ("letters", "slips", "settings")  # and what is known of makers' codes


class ShopDesk(QObject):
    """Made when the counter is awake; opens a store only where there is one, or once something is to be kept."""

    def __init__(self, counter: Counter) -> None:
        super().__init__(counter)
        self.counter, self.data = counter, counter.data
        self.pane = counter.side.shelf
        self.worker = StoreWorker(self)
        self.is_open = False
        self.has_list = self.is_demo = False
        self.settings: dict[str, Any] = dict(shop.DEFAULTS)
        self._names_on: date | None = None  # the day when names that are kept no longer were forgotten last
        self._about_list, self._problem, self._waiting = "", "", 0
        self._seen = dict.fromkeys((*WEIGHTY, "stock"), -1) | shop.remembered_revisions(self.data)
        self._codes_seen: tuple[int, ...] = ()
        self.parked = ParkedBar(counter)
        self.writer = SlipWriter(counter, self.worker, self.pane)
        self.reopener = SlipReopen(counter, self.worker)
        self.learner = ListLearner(counter)
        self._soon = QTimer(self, singleShot=True, interval=STILL_MS)
        self._soon.timeout.connect(self._ask_shelf)
        self._again = QTimer(self, singleShot=True)  # one, so that looks asked for between do not add up
        self._again.timeout.connect(self.open)
        self._connect()
        self.pane.say(tr(NO_LIST))
        if shop.has_store(self.data):
            self._again.start(OPEN_MS)

    def _connect(self) -> None:
        self.worker.pending_changed.connect(lambda _: self._say_state())
        self.pane.searched.connect(lambda _: self._ask_shelf())
        self.pane.needed_changed.connect(self._ask_shelf)
        self.pane.missed.connect(self.writer.note_missing)
        self.pane.chosen.connect(self.writer.choose)
        self.pane.matched.connect(self._match_by_hand)
        self.pane.letters_wanted.connect(self._read_code)

    # -- the store

    def open(self) -> None:
        """Open the store, put in what waits, and look what other tills changed."""
        self.worker.ask(lambda: shop.look(self.data), self._take_look, self._fail, "look")

    def today(self) -> date:
        """Return the shop's own day."""
        return date.today()

    def put_setting(
        self,
        key: str,
        value: Any,
        then: Callable[[Any], None],
        failed: Callable[[Exception], None],
        owner: QObject | None = None,
    ) -> None:
        """Keep a setting of the shop for all its tills."""
        self.settings[key] = value
        self.worker.ask(lambda: shop.put_setting(shop.open_store(self.data), key, value), then, failed, owner=owner)

    def keep_place(self, place: str) -> None:
        """Let the other tills know the shop's place too, where there is a store; this till has it already."""
        if shop.has_store(self.data):
            self.put_setting("place", place, lambda _: None, self._say_own_place)

    def _say_own_place(self, problem: Exception) -> None:
        words = tr("The place counts on this machine alone, the other tills were not told: {problem}")
        self.counter.desk_cases.line.say(words.format(problem=problem))

    def _forget_old_names(self) -> None:
        """Forget, once a day, the customers' names that the shop keeps no longer."""
        today = self.today()
        if self._names_on != today:
            self._names_on = today
            job = lambda: shop.forget_old_names(shop.open_store(self.data), today)  # noqa: E731
            self.worker.ask(job, lambda _: None, self._fail)

    def _take_look(self, look: shop.Look) -> None:
        is_first, self.is_open = not self.is_open, True
        self.has_list, self.settings = look.stock is not None, look.settings
        self.is_demo = look.stock is not None and look.stock.is_demo
        self._forget_old_names()
        self.counter.take_shop_place(look.settings["place"])
        if self._has_news(look.revisions, is_first):
            self._seen |= {area: look.revisions[area] for area in WEIGHTY}
            self.worker.ask(lambda: shop.load_catalogue(self.data), self._take_catalogue, self._fail, "catalogue")
        if (codes := tuple(look.revisions[area] for area in OF_CODES)) != self._codes_seen:
            self._codes_seen = codes
            self.worker.ask(self._load_codes, self._take_codes, self._fail)
        if look.revisions["stock"] != self._seen["stock"]:
            self._seen["stock"] = look.revisions["stock"]
            self._ask_shelf()
        self._about_list = _about(look.stock) if look.stock is not None else ""
        self._waiting = look.waiting
        self._say_state()
        self._again.start(AGAIN_MS)

    def _has_news(self, revisions: dict[str, int], is_first: bool) -> bool:
        """Whether the catalogue is another now. New slips weigh from the next start: nothing is to jump meanwhile."""
        areas = WEIGHTY if is_first else ("confirmed", "settings")
        return any(revisions[area] != max(self._seen[area], 0) for area in areas)

    def _take_catalogue(self, loaded: Loaded) -> None:
        self.counter.take_loaded(loaded)

    def _load_codes(self) -> tuple[LoadedHouse, SoldCodes]:
        return shop.load_house(self.data), shop.load_sold(self.data)

    def _take_codes(self, found: tuple[LoadedHouse, SoldCodes]) -> None:
        """Take what other tills taught of makers' codes, and what codes were sold as here."""
        loaded, sold = found
        self.counter.letters.take_sold(sold)
        self.counter.letters.take(loaded.codes)

    def _fail(self, problem: Exception) -> None:
        """Say once at the foot what is wrong with the store, where every page shows it, and keep it on the shelf."""
        line = self.counter.desk_cases.line
        if str(problem) != self._problem and not line.is_offering:
            line.say(str(problem))
        self._problem = str(problem)
        self._say_state()
        self._again.start(AGAIN_MS)

    def _say_state(self) -> None:
        pending = tr("asking the store …") if self.worker.pending else ""
        waits = _waiting(self._waiting)
        chosen = self.writer.says
        said = "  ".join(filter(None, (chosen, self._problem, waits, self._about_list, pending)))
        self.pane.show_state(said)

    # -- the shelf

    def show_case(self) -> None:
        """The case has changed: what answers it on the shelf follows in a moment."""
        self.learner.hold()
        if self.is_open:
            self._soon.start()

    def search(self) -> None:
        """Bring the shelf to the front and search it."""
        self.counter.side.open(SHELF_TAB)
        self.pane.take_focus()

    def _ask_shelf(self) -> None:
        if not self.is_open:
            return
        text = self.pane.field.text().strip()
        catalogue, case, found = self.counter.catalogue, self.counter.case, self.counter.assessment

        def job() -> list[ShelfAnswer]:
            from counter import shelf

            store = shop.open_store(self.data)
            if text:
                return shelf.judge_items(catalogue, case, found, shelf.find(store, text), searched=True)
            return shelf.answers(store, catalogue, case, found)

        self.worker.ask(job, lambda found_items: self._show(found_items, bool(text)), self._fail, "shelf")

    def _show(self, found: list[ShelfAnswer], is_search: bool) -> None:
        self._problem = ""
        says = "" if found else NOT_FOUND if is_search else NOTHING if self.counter.assessment.lamp else NO_CASE
        self.pane.show_answers(found, tr(says if self.has_list else NO_LIST))
        if not is_search:
            self.counter.answer.show_stock(_glance(found))

    def _read_code(self, answer: ShelfAnswer) -> None:
        """Put a line's code into the marks, below which its letters can be told."""
        self.counter.change(marks=answer.item.code)
        self.counter.marks.take_focus()

    def _match_by_hand(self, answer: ShelfAnswer) -> None:
        """Let the item mean the lamp that the case names, now and in every later list."""
        from counter.shelf import key_of

        lamp = self.counter.catalogue.lamp_by_id.get(self.counter.assessment.lamp or "")
        if lamp is None:
            self.pane.say(tr("Name the lamp first: then this line can be matched to it."))
            return
        keys = [key_of(answer.item.code), key_of(answer.item.barcode)]
        facts = {"base": lamp.base, "watts": lamp.watts.value, "kind": lamp.kind}
        who = str(self.counter.settings.value("who", ""))
        job = lambda: shop.match_by_hand(shop.open_store(self.data), keys, lamp.id, facts, who)  # noqa: E731
        self.worker.ask(job, lambda _: self.open(), self._fail)

    # -- what the menu opens

    def write_slip(self) -> None:
        """Open the slip of this case."""
        self.writer.open(self.counter.window)

    def import_list(self) -> None:
        """Choose a shop system's list and look at it before it goes in."""
        from counter.window.shelf.import_dialog import choose_and_open

        choose_and_open(self.counter, self.worker, self._imported)

    def _imported(self) -> None:
        self._problem = ""
        self.open()
        self.search()
        self.learner.begin()

    def bring_back(self) -> None:
        """Make the list before this one the present one again."""
        self.worker.ask(lambda: shop.bring_back(shop.open_store(self.data)), lambda _: self._imported(), self._fail)

    def load_demo(self) -> None:
        """Load the invented shop, marked as such."""
        from counter.shelf import put_demo

        catalogue = self.counter.catalogue
        job = lambda: put_demo(shop.open_store(self.data), catalogue)  # noqa: E731
        self.worker.ask(job, lambda _: self._imported(), self._fail)

    def drop_demo(self) -> None:
        """Take the invented shop out."""
        self.worker.ask(lambda: shop.drop_demo(shop.open_store(self.data)), lambda _: self._imported(), self._fail)

    def toggle_sales(self) -> None:
        """Let the shop's own sales weigh in identifying and reading, or the shipped words of how often alone."""

        def job() -> bool:
            store = shop.open_store(self.data)
            on = not shop.setting(store, "sales weigh")
            shop.put_setting(store, "sales weigh", on)
            return on

        self.worker.ask(job, self._say_sales, self._fail)

    def _say_sales(self, on: bool) -> None:
        self.pane.say(
            tr("The shop's own sales now count in identifying.")
            if on
            else tr("The shop's own sales no longer count in identifying.")
        )
        self.open()

    def open_log(self) -> None:
        """Open the log of slips."""
        from counter.window.slip.log_dialog import LogDialog

        dialog = LogDialog(self.counter, self.worker, self.reopener)
        dialog.open()

    def open_cost(self) -> None:
        """Reckon what light costs over the years."""
        from counter.window.shelf.cost_dialog import CostDialog

        CostDialog(self.counter, self.pane.current()).open()

    def is_slip(self, text: str) -> bool:
        """Whether what stands in the marks is the code of a slip; it then brings its case back."""
        return self.reopener.take(text)

    def next_customer(self) -> None:
        """Nothing of the last customer stays chosen."""
        self.writer.clear()
        self.pane.field.clear()

    def close(self) -> None:
        """Take no more questions; what is being written is written to its end, and stores are let go of."""
        for timer in (self._soon, self._again):
            timer.stop()
        self.parked.close()
        self.learner.close()
        self.worker.close()
        if self.is_open:
            shop.close_all()


def _waiting(count: int) -> str:
    words = trn("{count} slip waits on this machine.", "{count} slips wait on this machine.", count)
    return words.format(count=count) if count else ""


def _about(stock: StockList) -> str:
    lines = trn("{count} line, {name}.", "{count} lines, {name}.", stock.lines)
    said = lines.format(count=stock.lines, name=stock.name)
    return "  ".join((said, tr("This is the demo shop: nothing in it exists."))) if stock.is_demo else said


def _glance(found: list[ShelfAnswer]) -> str:
    """Say of the best answer how many, where and for how much: short, since it stands under the lamp's name."""
    from counter.shelf import is_there, money

    best = next((one for one in found if one.rank in ("exact", "other colour")), None)
    if best is None:
        return ""
    if best.rank == "other colour":
        return tr("here in another colour")
    there = best.item.quantity if is_there(best.item) else None
    count = tr("{count} here").format(count=figure(there)) if there is not None else tr("none here")
    place = tr("bin {bin}").format(bin=best.item.bin) if best.item.bin else ""
    price = tr("{money} each").format(money=money(best.item.price_cents)) if best.item.price_cents is not None else ""
    return ", ".join(filter(None, (count, place, price)))
