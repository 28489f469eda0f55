"""Cards made from the catalogue, their schedule, and each trainee's progress.

Lives here: what a card and a point worth knowing are (`_models`), figures and texts (`_settings`, from
resources/training.json), what the catalogue is sure of (`_facts`), the makers of cards (`_…_cards`, put together
by `_build`; those on selling ask about the cases of `_sale_cases` and `_sale_extras`, told by `_case_words`), the
list of all points (`_points`); the FSRS schedule (`_schedule`), a round of cards
(`_round`) and one that was cut off (`_unfinished`), a lesson about one thing (`_lesson`), records on the disk
(`_record`) and what their lines say (`_events`), what is fresh, fading or gone (`_freshness`), what is confused with
what (`_confusion`), who is ready (`_ready`, `_interval`), the words for all that (`_names`), the trainer's view
(`_board`), cases from the counter (`_from_case`), and the guided first case (`_first_case`). Nothing here has a
clock or touches slips and stock.

May import counter.desk and the core behind it, and fsrs.
"""

from counter.training._first_case import STEPS, Step, step_of
from counter.training._from_case import add_case, points_of_case
from counter.training._lesson import Lesson
from counter.training._models import Axis, Card, CardKind, Draw, Point
from counter.training._round import Feedback, Round
from counter.training._schedule import Schedule, rate
from counter.training._settings import Bars, Settings, settings
from counter.training.cards._facts import know_makers, known_here
from counter.training.cards._points import (
    KINDS,
    card_of,
    card_stream,
    cards_about,
    cards_report,
    draw_cards,
    dress,
    make_ahead,
    points,
)
from counter.training.cards._sale_cards import signal_of
from counter.training.record._board import Row, bars_words, results_sheet, row, tally_words
from counter.training.record._confusion import Confusion, Mix, confusion, mixes
from counter.training.record._events import Answer, Assigned, FromCase, RoundMark, Trainee
from counter.training.record._freshness import Freshness, freshness
from counter.training.record._interval import lower_bound
from counter.training.record._names import DO_NOT_KNOW, label_name, mix_words, rule_name
from counter.training.record._ready import Standing, Tally, standings
from counter.training.record._record import (
    Progress,
    UnknownTraineeError,
    add_trainee,
    assign,
    everybody,
    progress,
    remove_trainee,
    trainees,
    write_record,
)
from counter.training.record._unfinished import Unfinished, unfinished

__all__ = [
    "DO_NOT_KNOW",
    "KINDS",
    "STEPS",
    "Answer",
    "Assigned",
    "Axis",
    "Bars",
    "Card",
    "CardKind",
    "Confusion",
    "Draw",
    "Feedback",
    "Freshness",
    "FromCase",
    "Lesson",
    "Mix",
    "Point",
    "Progress",
    "Round",
    "RoundMark",
    "Row",
    "Schedule",
    "Settings",
    "Standing",
    "Step",
    "Tally",
    "Trainee",
    "Unfinished",
    "UnknownTraineeError",
    "add_case",
    "add_trainee",
    "assign",
    "bars_words",
    "card_of",
    "card_stream",
    "cards_about",
    "cards_report",
    "confusion",
    "draw_cards",
    "dress",
    "everybody",
    "freshness",
    "know_makers",
    "known_here",
    "label_name",
    "lower_bound",
    "make_ahead",
    "mix_words",
    "mixes",
    "points",
    "points_of_case",
    "progress",
    "rate",
    "remove_trainee",
    "results_sheet",
    "row",
    "rule_name",
    "settings",
    "signal_of",
    "standings",
    "step_of",
    "tally_words",
    "trainees",
    "unfinished",
    "write_record",
]
