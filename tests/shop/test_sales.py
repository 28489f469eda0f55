"""The shop's sales as prior: they lean the ranking, never settle a germicidal doubt, and can be switched off."""

from __future__ import annotations

import pytest

from counter import identify, shop
from counter.shop import load_catalogue, open_store, weighed_by_sales
from tests.shop.test_log import SOLD, slip

LOOKS = {"pins": "4", "legs": "4"}


def chance(catalogue, lamp):
    return next(one.probability for one in identify.rank(catalogue, LOOKS) if one.lamp == lamp)


def test_what_is_sold_often_is_likelier(catalogue):
    sold = weighed_by_sales(catalogue, {"G24q-1/13/quad": 200})
    assert chance(sold, "G24q-1/13/quad") > 2 * chance(catalogue, "G24q-1/13/quad")
    assert sum(sold.prevalence.values()) == pytest.approx(1)


def test_shipped_catalogue_stays_as_it_was(catalogue):
    before = dict(catalogue.prevalence)
    weighed_by_sales(catalogue, {"G24q-1/13/quad": 200})
    assert catalogue.prevalence == before


def test_germicidal_lamp_is_never_thought_rarer_than_its_twin(catalogue):
    sold = weighed_by_sales(catalogue, {"G23/9/twin": 10_000})
    assert sold.prevalence["G23/9/twin/uv-c"] >= sold.prevalence["G23/9/twin"] * (1 - 1e-9)


def test_lamps_that_are_gone_say_nothing(catalogue):
    assert weighed_by_sales(catalogue, {"G99/1": 50}) is catalogue


def test_slips_weigh_until_they_are_switched_off(shop_data, catalogue):
    store = open_store(shop_data)
    for n in range(30):
        shop.add_slip(store, slip(f"k{n}", lamp="G24q-1/13/quad"), [SOLD])
    assert chance(load_catalogue(shop_data).catalogue, "G24q-1/13/quad") > chance(catalogue, "G24q-1/13/quad")
    assert shop.remembered_catalogue(shop_data).loaded.catalogue.prevalence != catalogue.prevalence
    shop.put_setting(store, "sales weigh", False)
    assert load_catalogue(shop_data).catalogue.prevalence == catalogue.prevalence
