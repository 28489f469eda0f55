"""Identification against reference libraries and the textbook's lamp families. Each check names its source."""

from __future__ import annotations

import random

import numpy as np
import pytest
from scipy.stats import entropy, norm
from sklearn.naive_bayes import CategoricalNB

from counter.catalogue import TRUST, load
from counter.identify import next_looks, rank, word_chances

CATALOGUE = load()
WORDS = [look.key for look in CATALOGUE.looks if not look.is_measured]
VALUES = {key: [value.value for value in CATALOGUE.look_by_key[key].values] for key in WORDS}
LAMPS = [lamp.id for lamp in CATALOGUE.lamps]


def fitted(key):
    """Fit scikit-learn's model to one look: one row for each lamp and answer, weighed by the chance in our table."""
    table = word_chances(CATALOGUE, key)
    rows = [
        (at, answer, table[lamp][value]) for at, lamp in enumerate(LAMPS) for answer, value in enumerate(VALUES[key])
    ]
    lamps, answers, weights = (np.array(column) for column in zip(*rows, strict=True))
    model = CategoricalNB(alpha=0, force_alpha=True, fit_prior=False)
    return model.fit(answers.reshape(-1, 1), lamps, sample_weight=weights)


def test_posterior_equals_categorical_naive_bayes():
    """scikit-learn's CategoricalNB, its logs fitted look by look on weighted counts, then joined in one model."""
    parts = [fitted(key) for key in WORDS]
    whole = parts[0]
    whole.feature_log_prob_ = [part.feature_log_prob_[0] for part in parts]
    whole.n_features_in_ = len(parts)
    whole.class_log_prior_ = np.log([CATALOGUE.prevalence[lamp] for lamp in LAMPS])
    whole.n_categories_ = np.array([len(VALUES[key]) for key in WORDS])
    rng = random.Random(11)
    cases = [{key: rng.choice(VALUES[key]) for key in WORDS} for _ in range(60)]
    theirs = whole.predict_proba([[VALUES[key].index(case[key]) for key in WORDS] for case in cases])
    for case, row in zip(cases, theirs, strict=True):
        ours = {one.lamp: one.probability for one in rank(CATALOGUE, case)}
        np.testing.assert_allclose([ours[lamp] for lamp in LAMPS], row, rtol=1e-9, atol=1e-12)


@pytest.mark.parametrize(
    ("key", "told"),
    [
        ("pins", lambda lamp, base: (f"{base.pins.value:g}", base.pins)),
        ("arrangement", lambda lamp, base: (base.arrangement and base.arrangement.value, base.arrangement)),
        ("block", lambda lamp, base: (base.block and base.block.value, base.block)),
        ("glass", lambda lamp, base: (lamp.glass and lamp.glass.value, lamp.glass)),
        ("watts", lambda lamp, base: (f"{lamp.watts.value:g}", lamp.watts)),
    ],
)
def test_table_is_the_product_of_doubt_and_slips(key, told):
    """The matrix product of numpy, built here from the catalogue alone: trust in the truth times slips."""
    look, values = CATALOGUE.look_by_key[key], VALUES[key]
    slip = np.zeros((len(values), len(values)))
    for at, value in enumerate(look.values):
        rate = look.slip if value.slip is None else value.slip
        weights = np.array([value.instead.get(v, 0.0) if value.instead else 1.0 for v in values])
        weights[at] = 0
        slip[at] = rate * weights / weights.sum()
        slip[at, at] = 1 - rate
    table = word_chances(CATALOGUE, key)
    for lamp in CATALOGUE.lamps:
        value, word = told(lamp, CATALOGUE.base_of(lamp))
        if key == "glass" and word is None and lamp.kind == "uv-a":
            continue  # dark or white, a family's truth of its own
        trust = TRUST[word.confidence] if word else 1 / len(values)
        truth = np.full(len(values), (1 - trust) / (len(values) - 1))
        truth[values.index(value) if word else 0] = trust
        np.testing.assert_allclose(list(table[lamp.id].values()), truth @ slip, rtol=1e-12)


def test_size_density_is_the_normal_of_scipy():
    """scipy.stats.norm: the odds of two lamps after one reading are the odds of their densities."""
    look = CATALOGUE.look_by_key["length_mm"]
    known = [lamp for lamp in CATALOGUE.lamps if lamp.length_mm]
    means = np.array([lamp.length_mm.value for lamp in known])
    others = np.array([(lamp.length_also_mm or lamp.length_mm).value for lamp in known])  # of another market
    before = np.array([CATALOGUE.prevalence[lamp.id] for lamp in known])
    sds = np.hypot(look.tool_sd, [lamp.length_mm.plus_minus or look.default_sd for lamp in known])
    trust = np.array([TRUST[lamp.length_mm.confidence] for lamp in known])
    for x in (60.0, 131.0, 149.225, 590.0, 1205.0, 2500.0):
        near, wide = ((norm.pdf(x, means, k * sds) + norm.pdf(x, others, k * sds)) / 2 for k in (1, 3))
        right = trust * near + (1 - trust) * (wide + near.mean()) / 2
        density = before * (look.slip / (look.high - look.low) + (1 - look.slip) * right)
        ours = {one.lamp: one.probability for one in rank(CATALOGUE, {"length_mm": x})}
        found = np.array([ours[lamp.id] for lamp in known])
        np.testing.assert_allclose(found / found.sum(), density / density.sum(), rtol=1e-9)


@pytest.mark.parametrize("looks", [{}, {"legs": "4", "pins": "4"}, {"legs": "2", "length_mm": 165.0}])
def test_gain_is_the_entropy_of_scipy_before_less_after(looks):
    """scipy.stats.entropy in bits: H(lamp) - sum of P(answer) H(lamp | answer), by asking rank for every answer."""
    candidates = rank(CATALOGUE, looks)
    before = {one.lamp: one.probability for one in candidates}
    gains = {one.look: one.bits for one in next_looks(CATALOGUE, looks, candidates)}
    for key in set(WORDS) - set(looks):
        table = word_chances(CATALOGUE, key)
        after = 0.0
        for value in VALUES[key]:
            answer = sum(before[lamp] * table[lamp][value] for lamp in LAMPS)
            after += answer * entropy([one.probability for one in rank(CATALOGUE, looks | {key: value})], base=2)
        assert gains[key] == pytest.approx(entropy(list(before.values()), base=2) - after, abs=1e-6), key


# 'Interior Lighting for Designers', ch. 7 (discharge lamps), the table of compact families: tubes, tube diameter in
# eighths of an inch, pins, range of watts. Which IEC family answers is common practice, save that the four pins of
# the long twin stand in line, which the book says. Its sixth family, self-ballasted, has a screw and no pins.
FAMILIES = [
    ({"legs": "twin", "pins": "2", "tube_mm": "4/8 in"}, (5, 7, 9, 13), {"G23", "GX23"}),
    ({"legs": "quad", "pins": "2", "tube_mm": "4/8 in"}, (13, 18, 26), {"G24d", "GX23"}),
    ({"legs": "quad", "pins": "4", "tube_mm": "4/8 in"}, (13, 18, 26), {"G24q"}),
    ({"legs": "triple", "pins": "4", "tube_mm": "4/8 in"}, (18, 26, 32, 42, 57, 70), {"GX24q"}),
    (
        {"legs": "long-twin", "pins": "4", "arrangement": "row", "tube_mm": "5/8 in"},
        (18, 24, 36, 40, 55, 80),
        {"2G11"},
    ),
]


@pytest.mark.parametrize(
    ("looks", "watts", "families"),
    [(looks, watts, families) for looks, range_, families in FAMILIES for watts in range_],
)
def test_textbook_family_comes_out_on_top(looks, watts, families):
    best, *_ = rank(CATALOGUE, looks | {"watts": str(watts)})
    assert CATALOGUE.base_by_name[best.base].family in families
    assert best.watts == watts
