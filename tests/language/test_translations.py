"""Every covered sentence goes through gettext, is Spanish in Spanish, and changes nothing but words."""

from __future__ import annotations

import ast
import re
from string import Formatter

import pytest

from counter import language
from counter.desk import assess
from counter.training import KINDS, cards_about, draw_cards, freshness, results_sheet
from counter.training.cards._facts import Lore
from counter.training.cards._rule_cards import of_lamp, places
from tests.translations import KEYWORDS, ROOT, codes, mo_bytes, read, template

# Where no sentence may stand outside of `tr`, `trn` and `marked`. A package comes in when its words are wrapped.
COVERED = ("counter/language", "counter/training", "counter/window/training")
SHOWN_BY = re.compile(
    r"set(Text|ToolTip|Accessible\w+|WindowTitle|PlaceholderText|InformativeText|Title)|addTab|say|_finish"
)
MADE_OF = {"Words", "QLabel", "QPushButton", "QCheckBox", "ScrollColumn", "QAction"}
ENGLISH = re.compile(r"\b(the|of|and|is|are|with|for|not|this|that|its|lamp|ballast|fixture|which)\b", re.IGNORECASE)
COMPLETE = ("es",)


def is_sentence(text):
    return re.search(r"[A-Za-z]{2,}[,.:;]? +[A-Za-z({]", text) is not None


def sentences_left_out(source):
    """Return texts of two words and more, and texts that a widget shows, that go through no translation."""
    tree = ast.parse(source)
    allowed, found = set(), []
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef) and ast.get_docstring(node) is not None:
            allowed.add(node.body[0].value)
        if isinstance(node, ast.Subscript):  # a key of a table of words
            allowed.update(ast.walk(node.slice))
        name = _called(node)
        if name in KEYWORDS or name in {"Field", "ValueError", "OSError", "compile", "Literal"}:
            allowed.update(ast.walk(node))
    for node in ast.walk(tree):
        shows = SHOWN_BY.fullmatch(_called(node)) or _called(node) in MADE_OF
        shown = [one for part in node.args for one in ast.walk(part)] if shows else [node]
        for one in shown:
            text = one.value if isinstance(one, ast.Constant) and isinstance(one.value, str) else ""
            if one not in allowed and (is_sentence(text) or (shows and re.search(r"[A-Za-z]{2,}", text))):
                found.append(text)
    return found


def _called(node):
    if not isinstance(node, ast.Call):
        return ""
    return getattr(node.func, "id", getattr(node.func, "attr", ""))


NO_WORDS = {
    "do not know",  # as records have it; shown by its name
    "not for ",  # stands on an invented label, which is in English wherever it is sold
    "PDF (*.pdf)",
}


@pytest.mark.parametrize("package", COVERED)
def test_no_sentence_is_left_out(package):
    left = {
        f"{file.relative_to(ROOT)}: {text}"
        for file in sorted((ROOT / package).rglob("*.py"))
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
    ],
)
def test_a_sentence_left_out_would_be_found(source):
    assert sentences_left_out(source)


@pytest.mark.parametrize("source", ['tr("Nobody is chosen")', 'button.setText(tr("No"))', '"""Says what it is."""'])
def test_a_wrapped_one_is_not(source):
    assert sentences_left_out(source) == []


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
    return sorted(f"{name}:{spec}" for _, name, spec, _ in Formatter().parse(text) if name is not None)


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


def test_one_more_file_is_enough_and_what_it_lacks_is_english():
    language.use("de")
    assert language.tr("Back to the counter  F4") == "Zurück zur Theke  F4"
    assert language.tr("Nobody is chosen") == "Nobody is chosen"
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
            if not one.rule.startswith("law"):  # the table of laws has its own words
                assert ENGLISH.findall(quoted) == [], one


def test_no_english_is_left_in_a_spanish_card(catalogue, spanish):
    for card in draw_cards(catalogue, 3, 150, [one for one in KINDS if one not in ("read-code", "caution")]):
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
    assert "Resultados de la formación: Ada" in sheet
    assert ENGLISH.findall(sheet) == []
    assert {one.said for one in freshness(catalogue, known, now)} == {"aún no vista"}
