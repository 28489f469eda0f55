"""Cards made from the catalogue, their schedule, and each trainee's progress.

Lives here: what a card and a point worth knowing are (`_models`), figures and texts (`_settings`, from
resources/training.json), the makers of cards, the FSRS schedule (`_schedule`), records on the disk (`_record`),
what is confused with what (`_confusion`) and how sure a share is (`_interval`).

May import counter.desk and the core behind it, and fsrs.
"""

from counter.training._confusion import Confusion, Mix, confusion, mixes
from counter.training._interval import lower_bound
from counter.training._models import Axis, Card, CardKind, Draw, Point
from counter.training._record import (
    Answer,
    Assigned,
    FromCase,
    Progress,
    Trainee,
    UnknownTraineeError,
    add_trainee,
    assign,
    progress,
    record,
    remove_trainee,
    trainees,
)
from counter.training._schedule import CurvePoint, Schedule, rate
from counter.training._settings import Settings, settings

__all__ = [
    "Answer",
    "Assigned",
    "Axis",
    "Card",
    "CardKind",
    "Confusion",
    "CurvePoint",
    "Draw",
    "FromCase",
    "Mix",
    "Point",
    "Progress",
    "Schedule",
    "Settings",
    "Trainee",
    "UnknownTraineeError",
    "add_trainee",
    "assign",
    "confusion",
    "lower_bound",
    "mixes",
    "progress",
    "rate",
    "record",
    "remove_trainee",
    "settings",
    "trainees",
]
