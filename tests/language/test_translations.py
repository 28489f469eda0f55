"""Every covered sentence goes through gettext, is Spanish in Spanish, and changes nothing but words."""

from __future__ import annotations

import ast
import re
from string import Formatter

import pytest
from babel.messages.catalog import Catalog

from counter import language
from counter.cli import main
from counter.desk import assess
from counter.language import _chosen
from counter.training import KINDS, cards_about, draw_cards, freshness, results_sheet
from counter.training.cards._facts import Lore
from counter.training.cards._rule_cards import of_lamp, places
from tests.translations import KEYWORDS, ROOT, codes, mo_bytes, read, template

# Where no sentence may stand outside of `tr`, `trn` and `marked`. A package comes in when its words are wrapped.
COVERED = (
    "counter/catalogue",
    "counter/cli",
    "counter/entries",
    "counter/paper",
    "counter/shelf",
    "counter/shop",
    "counter/files.py",
    "counter/shop_words.py",
    "counter/desk",
    "counter/fit",
    "counter/identify",
    "counter/language",
    "counter/light",
    "counter/marks",
    "counter/measure",
    "counter/outline",
    "counter/slip",
    "counter/training",
    "counter/app.py",
    "counter/window/anew.py",
    "counter/window/answer_bar.py",
    "counter/window/arrangement.py",
    "counter/window/commands.py",
    "counter/window/counter_room.py",
    "counter/window/desk_cases.py",
    "counter/window/dialogs",
    "counter/window/fixture",
    "counter/window/main_window.py",
    "counter/window/measure",
    "counter/window/offer_line.py",
    "counter/window/one_instance.py",
    "counter/window/report_dialog.py",
    "counter/window/rescue.py",
    "counter/window/saved_cases.py",
    "counter/window/shelf",
    "counter/window/side",
    "counter/window/slip",
    "counter/window/looks",
    "counter/window/marks",
    "counter/window/outlines",
    "counter/window/paper",
    "counter/window/parts",
    "counter/window/training",
    "counter/words",
)
SHOWN_BY = re.compile(
    r"set(Text|ToolTip|Accessible\w+|WindowTitle|PlaceholderText|InformativeText|Title)|addTab|say|_finish"
)
ROLES = {"title", "quiet", "look-next"}  # of Words, beside what it says
MADE_OF = {"Words", "QLabel", "QPushButton", "QCheckBox", "ScrollColumn", "QAction"}
NOT_SHOWN = {"Field", "compile", "Literal", "cast", "AttributeError", "KeyError"}
ENGLISH = re.compile(r"\b(the|of|and|is|are|with|for|not|this|that|its|lamp|ballast|fixture|which)\b", re.IGNORECASE)
COMPLETE = ("es",)


SQL = re.compile(r"\(?(SELECT|INSERT|PRAGMA|CREATE|DROP|BEGIN|REPEATABLE)\b")
# An invented stock list, what databases are made by and say, and titles of schemas, which programs read.
NOBODY_READS = (
    "counter/catalogue/_schema.py",
    "counter/shelf/_demo.py",
    "counter/shop/migrations",
    "counter/shop/_say.py",
)


def is_sentence(text):
    return re.search(r"[A-Za-z]{2,}[,.:;]? +[A-Za-z({]", text) is not None and not SQL.match(text.lstrip())


def sentences_left_out(source):
    """Return texts of two words and more, and texts that a widget shows, that go through no translation."""
    tree = ast.parse(source)
    allowed, found = set(), []
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef) and ast.get_docstring(node) is not None:
            allowed.add(node.body[0].value)
        if isinstance(node, ast.AnnAssign) and getattr(node.annotation, "id", "") == "TypeAlias":
            allowed.update(ast.walk(node))
        if isinstance(node, ast.Subscript):  # a key of a table of words
            allowed.update(ast.walk(node.slice))
        if isinstance(node, ast.Dict):
            allowed.update(node.keys)
        name = _called(node)
        if name in KEYWORDS or name in NOT_SHOWN:
            allowed.update(ast.walk(node))
    found += [
        one.args[0].value  # Babel does not look into them
        for node in ast.walk(tree)
        if isinstance(node, ast.JoinedStr)
        for one in ast.walk(node)
        if _called(one) in KEYWORDS and isinstance(one.args[0], ast.Constant)
    ]
    for node in ast.walk(tree):
        shows = SHOWN_BY.fullmatch(_called(node)) or _called(node) in MADE_OF
        shown = [one for part in node.args for one in ast.walk(part)] if shows else [node]
        for one in shown:
            text = one.value if isinstance(one, ast.Constant) and isinstance(one.value, str) else ""
            if (
                one not in allowed
                and text not in ROLES
                and (is_sentence(text) or (shows and re.search(r"[A-Za-z]{2,}", text)))
            ):
                found.append(text)
    return found


def _called(node):
    if not isinstance(node, ast.Call):
        return ""
    return getattr(node.func, "id", getattr(node.func, "attr", ""))


NO_WORDS = {
    "do not know",  # as records have it; shown by its name
    "not for ",  # stands on an invented label, which is in English wherever it is sold
    *("PDF (*.pdf)", "CSV (*.csv)"),
    *("insect trap", "gel curing", "with a dimming ballast"),  # as the catalogue has them
    *("ask first", "do not sell"),  # verdicts as data
    *("explained", "current"),  # kinds of answers, parts of a lamp
    *("not for this", "other colour"),  # ranks as data
    *("asked for", "came back", "sales weigh"),  # what the store is asked for
    *("Python ", ": PSF-2.0", "mm", " mm", "\N{THIN SPACE}mm"),
    "light, high contrast",  # names of palettes, which nobody reads
    "dark, high contrast",
    *("do not sell", "ask first"),  # verdicts as data; where they are shown they go through tr
    *("insect trap", "gel curing", "a compact one", "any other", "another number of"),  # data and what rules fill in;
    *("at most", "electronic or magnetic"),
    *("high frequency", "mains frequency", "just noticeable", "degrees Celsius"),  # fit._texts speaks both
    *("times the lamp's current", "times the lamp's watts"),  # units, as data
    *("watts or inches", "leg spacing", "check digit", "main letter"),  # names of parts of a code
    *("known watts", "tube number", "shapes before", "industry letters"),
    *("bare watts", "bare pins", "two figures", "list number", "uv number", "uv letters"),  # names of slots
    "projecting contacts (pins)",  # asked for in the table's own words
    *("cannot tell", "this shop"),  # what may be typed; who taught
    "{day} de {month} de {year}",  # Spanish already
    *("learned from ", "taken over from "),  # what was done, as the store keeps it
    *("not for this", "may go in", "other colour"),  # ranks of the shelf, as data
    *("sales weigh", "the sequence is made with the store"),  # a setting's name; a fault of the program
    *(
        "measured or seen in a shop",
        "diff --git a/",
        "read in the source",
        "read in a summary",
    ),  # a patch for us, in the words of our own files
    *("a moment needs its time zone", " right of "),  # faults of the program
}


@pytest.mark.parametrize("package", COVERED)
def test_no_sentence_is_left_out(package):
    left = {
        f"{file.relative_to(ROOT)}: {text}"
        for file in ([ROOT / package] if package.endswith(".py") else sorted((ROOT / package).rglob("*.py")))
        if not str(file.relative_to(ROOT)).startswith(NOBODY_READS)
        for text in sentences_left_out(file.read_text(encoding="utf-8"))
        if text not in NO_WORDS
    }
    assert left == set()


@pytest.mark.parametrize(
    "source",
    [
        'x = "Nobody is chosen"',
        'f"{name} learns here."',
        'button.setText("No")',
        'QPushButton("Add")',
        'say(f"No {x}")',
        """f"{x} {tr('No')}\"""",
    ],
)
def test_a_sentence_left_out_would_be_found(source):
    assert sentences_left_out(source)


@pytest.mark.parametrize("source", ['tr("Nobody is chosen")', 'button.setText(tr("No"))', '"""Says what it is."""'])
def test_a_wrapped_one_is_not(source):
    assert sentences_left_out(source) == []


def test_every_sentence_is_found_by_those_who_gather_it():
    """Of what stands inside a formatted string nothing is gathered."""
    hidden = [
        f"{file.relative_to(ROOT)}:{call.lineno}"
        for file in sorted((ROOT / "counter").rglob("*.py"))
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        for call in (ast.walk(node) if isinstance(node, ast.JoinedStr) else ())
        if _called(call) in KEYWORDS and any(isinstance(one, ast.Constant) for one in call.args)
    ]
    assert hidden == []


@pytest.mark.parametrize("code", COMPLETE)
def test_every_sentence_is_translated(code):
    """Else: `python -m tests.translations update`, then fill in what is empty in counter.po, then compile."""
    known = read(code)
    for message in template():
        if not message.id:
            continue
        here = known.get(message.id[0] if isinstance(message.id, tuple) else message.id)
        assert here is not None, message.id
        assert here.string, message.id
        if isinstance(here.string, tuple | list):
            assert len(here.string) == known.num_plurals
            assert all(here.string), message.id


def fields(text):
    named = [f"{name}:{spec}" for _, name, spec, _ in Formatter().parse(text) if name is not None]
    return sorted([*named, *re.findall(r"%(?:\(\w+\))?[rs]", text)])


@pytest.mark.parametrize("code", codes())
def test_a_translation_fills_in_the_same(code):
    for message in read(code):
        if not message.id or not message.string:
            continue
        if isinstance(message.id, tuple):
            filled = [fields(text) for text in message.string if text]
            assert all(one == fields(message.id[1]) for one in filled), message.id
        else:
            assert fields(message.string) == fields(message.id), message.id


@pytest.mark.parametrize("code", codes())
def test_edges_are_kept(code):
    """A sentence that is joined to another keeps the space that joins it."""
    for message in read(code):
        if message.id and isinstance(message.id, str) and message.string:
            edges = message.id[0] == " ", message.id[-1] == " "
            assert (message.string[0] == " ", message.string[-1] == " ") == edges, message.id


def called(text):
    """Return a label as a sentence quotes it: without its Alt letter, its dots and its key."""
    return re.sub(r"&|  .*$", "", text).strip(" .…").lower()


@pytest.mark.parametrize("code", codes())
def test_a_button_is_quoted_as_it_is_called(code):
    said = {message.id: message.string for message in read(code) if isinstance(message.id, str) and message.string}
    labels = {called(english): called(spoken) for english, spoken in said.items()}
    quoted = re.compile("[«“„]([^»”“{}]+)[»”“]")
    wrong = [
        (english, label)
        for english, spoken in said.items()
        for label in map(called, quoted.findall(english))
        if label in labels and labels[label] not in map(called, quoted.findall(spoken))
    ]
    assert wrong == []


@pytest.mark.parametrize("code", codes())
def test_what_is_compiled_is_what_is_written(code):
    file = ROOT / "resources" / "translations" / code / "counter.mo"
    assert file.read_bytes() == mo_bytes(read(code)), "run: python -m tests.translations compile"


def test_languages_name_themselves():
    assert language.languages() == {"en": "English", "de": "Deutsch", "es": "Español"}


@pytest.mark.parametrize(
    ("code", "spoken"), [("es", "es"), ("es_MX", "es"), ("de-AT", "de"), ("xx", "en"), ("", "en"), ("en", "en")]
)
def test_a_region_falls_back_on_its_language(code, spoken):
    language.use(code)
    assert language.current() == spoken
    language.use(language.OWN)


def test_one_and_many(spanish):
    assert language.trn("{count} time", "{count} times", 1) == "{count} vez"
    assert language.trn("{count} time", "{count} times", 3) == "{count} veces"


def test_what_a_language_lacks_is_english():
    language.use("de")
    assert language.tr("Back to the counter  F4") == "Zurück zur Theke  F4"
    assert language.tr("Nobody is chosen") == "Nobody is chosen"
    language.use(language.OWN)


def test_one_more_file_is_enough(monkeypatch, tmp_path, capsys):
    """Its words are spoken, its name is offered where a language is chosen, and what it lacks is English."""
    french = Catalog(locale="fr")
    for english, said in (("This language, in itself", "Français"), ("ask first", "demander d'abord")):
        french.add(english, said)
    (tmp_path / "fr").mkdir()
    (tmp_path / "fr" / "counter.mo").write_bytes(mo_bytes(french))
    monkeypatch.setattr(_chosen, "folder", lambda: tmp_path)
    assert language.languages() == {"en": "English", "fr": "Français"}
    assert main(["fit", "--lamp", "FT18W/2G11", "--holder", "2G11", "--language", "fr"]) == 5
    said = capsys.readouterr().out
    assert said.startswith("DEMANDER D'ABORD\n")
    assert "What feeds the lamp" in said
    assert main(["read", "9W", "--language", "es"]) == 2
    language.use(language.OWN)


@pytest.fixture(scope="module")
def cases(catalogue):
    """Return a case for every rule of caution that can be brought about."""
    known, found = Lore(catalogue), []
    for kept in places().values():
        for lamp, name, nth in kept[:1]:
            met = list(of_lamp(known, catalogue.lamp_by_id[lamp], name))
            found += [setting.case for setting in met[nth : nth + 1]]
    return found


def told(found):
    cautions = [(one.signal, one.rule, one.figure, one.verdict, one.key) for one in found.cautions]
    return found.verdict, cautions, [one.about for one in found.asks], [one.key for one in found.doubts]


def test_a_language_changes_words_and_no_answer(catalogue, cases):
    before = [assess(catalogue, case) for case in cases]
    language.use("es")
    after = [assess(catalogue, case) for case in cases]
    language.use(language.OWN)
    assert [told(one) for one in before] == [told(one) for one in after]
    assert all(one.cautions[0].says != other.cautions[0].says for one, other in zip(before, after, strict=True))


def test_no_english_is_left_in_a_spanish_caution(catalogue, cases, spanish):
    for case in cases:
        for one in assess(catalogue, case).cautions:
            quoted = re.sub(r"«[^»]*»|\bIS\b", "", f"{one.says} {one.why} {one.do} {one.ask}")
            assert ENGLISH.findall(quoted) == [], one


def test_no_english_is_left_in_a_spanish_card(catalogue, spanish):
    for card in draw_cards(catalogue, 3, 150, KINDS):
        for text in (card.said, card.why, *card.choices):
            assert ENGLISH.findall(re.sub(r"«[^»]*»|\bLED\b", "", text)) == [], text


def test_cards_kept_in_one_language_are_not_shown_in_another(catalogue):
    (english,) = cards_about(catalogue, "damp", 1)
    language.use("es")
    (spanish,) = cards_about(catalogue, "damp", 1)
    language.use(language.OWN)
    assert spanish.question != english.question
    assert (spanish.point, spanish.case, spanish.values[spanish.answer]) == (
        english.point,
        english.case,
        english.values[english.answer],
    )


def test_results_are_told_in_spanish(catalogue, spanish):
    from datetime import UTC, datetime

    from counter.training import Progress, Trainee

    now = datetime(2031, 3, 3, tzinfo=UTC)
    known = Progress(trainee=Trainee(id="0" * 16, name="Ada", at=now))
    sheet = results_sheet(catalogue, known, now)
    assert "Resultados de la capacitación: Ada" in sheet
    assert ENGLISH.findall(sheet) == []
    assert {one.said for one in freshness(catalogue, known, now)} == {"aún no vista"}
