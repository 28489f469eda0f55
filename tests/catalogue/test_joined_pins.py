"""Which tubes have the pins of each end joined inside: common practice, no source."""

import pytest

from counter import catalogue

SHIPPED = catalogue.load()


@pytest.mark.parametrize(
    ("lamp", "base", "changed", "is_joined"),
    [
        ("G13/40/linear/t12-is", "G13", {}, True),
        ("G13/40/linear/t12-is", "G13", {"inches": 48.0}, True),  # what its code prints changes no pin
        ("G13/40/linear/t12-is", "2G13", {"shape": "u-bent"}, True),  # bent, with two pins at each end
        ("G13/40/linear/t12-is", "Fa8", {}, False),  # one pin
        ("G13/40/linear/t12-is", "G13", {"starts": ("instant", "rapid")}, False),  # heated as well
        ("Fa8/75/linear", "Fa8", {"inches": None}, False),
        ("G13/32/linear", "G13", {}, False),
        ("2G11/36/long-twin", "2G11", {"starts": ("instant",)}, False),  # on one end the ballast joins them
    ],
)
def test_joined(lamp, base, changed, is_joined):
    one = SHIPPED.lamp_by_id[lamp].model_copy(update=changed)
    assert SHIPPED.base_by_name[base].joins_pins(one) is is_joined
