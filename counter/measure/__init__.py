"""Photographs to measured looks: a bank card gives the scale, pins and key are found and fitted to every base.

May import counter.catalogue. OpenCV, numpy and zxing-cpp are imported inside functions only: the window starts and
answers without them. Pictures are read for their pixels; where and when one was taken is not kept.
"""

from counter.measure._by_hand import by_card, by_length, pattern_of
from counter.measure._fit import faces_of, fit_all, fit_base, likely_of, outline_reach, similarity, spacing_of
from counter.measure._measure import answered, certain_looks, measure_bytes, measure_picture, measure_pixels
from counter.measure._models import Fit, Measured, Pattern, Pin
from counter.measure._overlay import overlay
from counter.measure._picture import PictureProblem, pixels_of, read_picture
from counter.measure._report import measured_report, measured_text

__all__ = [
    "Fit",
    "Measured",
    "Pattern",
    "PictureProblem",
    "Pin",
    "answered",
    "by_card",
    "by_length",
    "certain_looks",
    "faces_of",
    "fit_all",
    "fit_base",
    "likely_of",
    "measure_bytes",
    "measure_picture",
    "measure_pixels",
    "measured_report",
    "measured_text",
    "outline_reach",
    "overlay",
    "pattern_of",
    "pixels_of",
    "read_picture",
    "similarity",
    "spacing_of",
]
