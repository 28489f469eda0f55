"""House codes that the shop writes down itself."""

from __future__ import annotations

from counter import marks

SHOP = marks.HouseMaker(
    maker="Nonesuch (invented)",
    parts=(
        marks.HousePart(part="maker", text="NS", means="Nonesuch"),
        marks.HousePart(part="watts", number="watts", means="watts", before="-"),
        marks.HousePart(
            part="base",
            before=".",
            choices={"A": marks.HouseChoice(means="base G24q", facts=marks.HouseFacts(base="G24q"))},
        ),
        marks.HousePart(part="colour", colour=True, before="/", optional=True),
    ),
    codes={
        "QK-9": marks.HouseChoice(means="9 W germicidal", facts=marks.HouseFacts(kind="uv-c", watts=9, base="G23"))
    },
)


def test_pattern(shipped):
    (reading,) = marks.read(shipped, "ns-26.a/840", house=[SHOP]).readings
    assert (reading.system, reading.canonical, reading.lamps) == ("house", "NS-26.A/840", ("G24q-3/26/quad",))
    assert [span.text for span in reading.spans] == ["ns", "26", "a", "8", "40"]


def test_whole_code(shipped):
    (reading,) = marks.read(shipped, "QK-9", house=[SHOP]).readings
    assert (reading.lamp.kind, reading.lamps) == ("uv-c", ("G23/9/twin/uv-c",))


def test_unknown_without_the_table(shipped):
    evidence = marks.read(shipped, "QK-9")
    assert (evidence.makers, evidence.floor) == (("QK",), 1)
    assert not any(reading.lamp.kind for reading in evidence.readings), "what QK means may be ultraviolet"


def test_shipped_example_reads(shipped):
    for maker in marks.shipped_house():
        (reading,) = marks.read(shipped, maker.example or "").readings
        assert reading.system == "house"
        assert reading.lamps


def test_shop_file_round_trip(tmp_path):
    path = tmp_path / "house-codes.json"
    path.write_text(marks.HouseTable(makers=(SHOP,)).model_dump_json(), encoding="utf-8")
    assert marks.read_house(path) == (SHOP,)


def test_worn_house_code(shipped):
    for text, lamp in (("N?-26.A/840", "G24q-3/26/quad"), ("Q?-9", "G23/9/twin/uv-c")):
        best = marks.read(shipped, text, house=[SHOP]).readings[0]
        assert (best.system, best.lamps) == ("house", (lamp,))
