"""Gather every sentence, bring the translations up to date, and compile them.

    python -m tests.translations            say how much of each language is translated
    python -m tests.translations update     write new and changed sentences into every counter.po, then compile
    python -m tests.translations compile    only make every counter.mo from its counter.po
    python -m tests.translations add fr     begin a language

Sentences are what stands in `tr`, `trn` and `marked` anywhere in counter/, and what `counter.language.TEXTS` names in
the resources. Needs Babel, which the program itself does without.
"""

from __future__ import annotations

import re
import sys
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from counter.language import TEXTS, texts_of
from counter.language._chosen import DOMAIN, folder

ROOT = Path(__file__).resolve().parent.parent
KEYWORDS = {"tr": None, "marked": None, "trn": (1, 2)}
HEAD = """\
# Translations of the lamp counter. MIT, as the program.
msgid ""
msgstr ""
"Language: {code}\\n"
"Plural-Forms: {plurals}\\n"
"Content-Type: text/plain; charset=utf-8\\n"
"Content-Transfer-Encoding: 8bit\\n"

"""
NO_DAY = datetime(2000, 1, 1, tzinfo=UTC)  # the same sentences make the same file on every day


def template() -> Catalog:
    """Return every sentence there is, with where it stands: a file, or a place in a resource."""
    made = Catalog(charset="utf-8")
    found = extract_from_dir(str(ROOT / "counter"), [("**.py", "python")], keywords=KEYWORDS, comment_tags=())
    for file, _, message, _, _ in sorted(found, key=lambda one: (one[0], one[1])):
        if is_words(message):
            made.add(message, locations=[(f"counter/{file}", None)], flags=flags(message))
    for name in TEXTS:
        for place, text in texts_of(name):
            if is_words(text):
                made.add(text, locations=[(f"resources/{name}:{place}", None)], flags=flags(text))
    return made


def is_words(message: str | tuple[str, ...]) -> bool:
    """Whether there is anything to translate: not "{tell} {difference}", not "13 W"."""
    bare = re.sub(r"\{[^}]*\}|\d+ W", "", message if isinstance(message, str) else message[0])
    return any(char.isalpha() for char in bare)


def flags(message: str | tuple[str, ...]) -> tuple[str, ...]:
    """Return gettext's name for what is filled in, so that editors check the braces."""
    texts = message if isinstance(message, tuple) else (message,)
    return ("python-brace-format",) if any("{" in text for text in texts) else ()


def read(code: str) -> Catalog:
    """Return the translations of one language."""
    with (folder() / code / f"{DOMAIN}.po").open("rb") as file:
        return _plain(read_po(file, locale=code))


def _plain(catalog: Catalog) -> Catalog:
    """Return a catalogue without days and addresses in its head."""
    catalog.project, catalog.version = "lamp-counter", "1"
    catalog.creation_date = catalog.revision_date = NO_DAY
    catalog.last_translator = catalog.language_team = catalog.msgid_bugs_address = ""
    return catalog


def po_bytes(catalog: Catalog) -> bytes:
    made = BytesIO()
    write_po(made, catalog, width=110, omit_header=True, ignore_obsolete=True)
    return HEAD.format(code=catalog.locale, plurals=catalog.plural_forms).encode() + made.getvalue()


def mo_bytes(catalog: Catalog) -> bytes:
    made = BytesIO()
    write_mo(made, _plain(catalog))
    return made.getvalue()


def codes() -> list[str]:
    return sorted(file.parent.name for file in folder().glob(f"*/{DOMAIN}.po"))


def update(code: str) -> None:
    catalog = read(code) if code in codes() else _plain(Catalog(locale=code))
    catalog.update(template(), no_fuzzy_matching=True)
    (folder() / code).mkdir(parents=True, exist_ok=True)
    (folder() / code / f"{DOMAIN}.po").write_bytes(po_bytes(catalog))


def compile_(code: str) -> None:
    (folder() / code / f"{DOMAIN}.mo").write_bytes(mo_bytes(read(code)))


def missing(code: str) -> list[str]:
    """Return the sentences without a translation in a language."""
    known = read(code)
    found = []
    for message in template():
        here = known.get(message.id[0] if isinstance(message.id, tuple) else message.id)
        if message.id and (
            here is None or not here.string or (isinstance(here.string, tuple) and not all(here.string))
        ):
            found.append(message.id[0] if isinstance(message.id, tuple) else message.id)
    return found


def main() -> None:
    match sys.argv[1:]:
        case ["add", code]:
            update(code)
        case ["update"]:
            for code in codes():
                update(code)
        case ["compile"] | []:
            pass
        case _:
            sys.exit(__doc__)
    if len(sys.argv) > 1:
        for code in codes():
            compile_(code)
    everything = len(template())
    for code in codes():
        print(f"{code}: {everything - len(missing(code))} of {everything}")


if __name__ == "__main__":
    main()
