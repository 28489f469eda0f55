"""What has a form is read by its form, and what stands beside it goes on holding the sale.

Wordings as they are met (common practice, no source); firms, addresses and numbers are invented.
"""

import pytest

from counter.desk import Case, Fixture, assess
from counter.fit import parse_label

READ = """
Norvolt Electric Corp., 200 Mill Road, Dayton, OH 45402
Importado por Luzverde S.A. de C.V., Monterrey
Lichtwerk GmbH & Co. KG, Industriestrasse 12, D-58511 Neustadt
EN 61347-2-3, BS EN 60598-2-1, CAN/CSA STD C22.2 No. 74, IS 13021, AS/NZS 60921
UL Std 1598, ETL 3052417, LR 98651, IK08
4 x M6, 8-32 screws, 600x600 mm, troffer 2x4, leads 1-2
barcode 0 12345 67890 5
03/2011, week 12, 365 days
MRP Rs 240, CNPJ 12.345.678/0001-90, P.O. Box 5511
www.norvolt.example/spec, sales@norvolt.example
dims 100-5%, less than 10% THD, 100/50%
195-264V AC, 154-275V DC operation
clear acrylic lens, halogen free, flicker-free
lamps not included, access above ceiling not required
do not install insulation within 3 in
120V only, for installation by electrician only
Wannenleuchte für Feuchträume, Kupferwicklung, Befestigung M4
60CY, 60~, 50 c/s, .21A @277, 1 PH, 0.85 w/ capacitor, cos φ 0,28...0,45, leakage 100 uA
9 cell louver, 2 speed, 2 sources, tool 15, 24 cu in, 40 in-lb, 8 pies, bobinage 130
HF-126, EVG-K 126, 220...240V, 50/60, C.F. 1.5, KW 14/09, Red lamp 1; Blu lamp 2, lamp 1-2 common
SELV-Leitungen getrennt verlegen, cut-out on lamp failure, mount lamp within 1/2 in. of grounded metal
remove lens and inside cover, 90 C wire 4 in 4 out, wet location only by trained personnel, task lite
max of 8 #12 AWG, 3rd floor, room 114, mfd 2/09, 04/11, Aug 2009, 47 stamped, 1/2 NPT, vol. 2
FS-25, starter S10/S2, no striations, leads 1 to 7, terminals: L N E / 1 2 3 4, cap 4.5, 0418
keep hot wires short, do not bundle lamp and mains tails, fault reset on power cycle, do not relamp with power on
220-240V AC/DC, TCmax 90, DA1 DA2, <5 mA leakage, not SELV, PL 100-357, keep plug clear of choke, Patt no. W/28/2P
Ne pas utiliser sans amorceur, nur mit Starter betreiben, não necessita starter, fin de vida del balastro
condensatore 4,5 µF, cavi corti, attacco rigido, fios azuis, fio terra obrigatório, Netz freischalten
tw130 C 4,5 µF, min. -15, resolución 92/98, EVG 1x26 G24q-3, 4-pin sockets only
nicht dimmbar, do not use on dimmer, do not touch, non coprire, uso interno somente, not repairable, no reparable
not suitable for damp locations, do not install within 6 in of combustible material, no external starter required
use 105C wire only, solo conductores de cobre, only for class I luminaires, without PCB, do not cut leads
no instalar a menos de 2.5 m del suelo, warranty void if label removed, reduced light output
Moss Creek, Indiana; Velariz, Lda; Norvolt Lighting Gear Ltd; Pol. Ind. Los Tilares
""".strip().splitlines()
HELD = """
Norvolt Germicidal Corp.
200 lamps removed Road
lead free LED
365 nm
254
wave length 254
not for these lamps
do not install lamps
fluorescent lamps not for indoor use
26W lamps only with zorbik
digital tubes
wood lamp
line and neutral to both end caps
230 V ~ at sockets
ends powered from 120V
tubos conectados a la linea
Phase auf Sockel
replace with 18W
set to 42W
is it 26W?
do not use shop
DO NOT USE kitchen
no usar cocina
print shop yellow tubes
enclosed: amalgam lamp required
tubo para baja temperatura
aircraft galley light
26 ceiling
9/11
blue-lite
red lamp 18W
Tanovax Inc.
do not use outdoor lamps
5/7
32
18 contacts
2 contacts
zone 2
405 nm
12/24
LAMP WATTS AMPS F32T8 42 .3
tubes 1-1/2 in. dia.
FS-20
FS-2 lamps
nur mit Starter-Ersatz
keep lamp clear
lâmpada azul
tubi blu
rede nos soquetes
rete agli attacchi
alimentazione ai tubi
tensión peligrosa en portalámparas
fase y neutro al mismo lado
iluminación de seguridad
activo en portalámparas
wired in parallel
cond 26
terminals 18 26
0254
24V AC/DC
rebuilt, Ohio
tubes DEL rapides
tube del metal
leak
do not use LED tubes w/ 18 or triple lamps
Not for LED tubes / 26 W lamps
Ne convient plus
ne plus utiliser
não usar
não usar lâmpadas 26W
dangerous voltage both sockets
use zorbik lamp, Ohio
starter S10 fusible
integral ballast lamps
do not touch the lamp
only copper
do not install lamps within 3 in
not suitable for lamps
warranty void if ballast removed
reduced light output lamps
cut leads
oven aisle
photo set
fed from the tray
""".strip().splitlines()


def said(catalogue, label, code="CFQ26W/G24q/841", glass="white", **fixture):
    known = {"holder": "G24q-3", "ballast": "electronic", "ballast_watts": (26,)} | fixture
    looks = {"glass": glass} if glass else {}
    case = Case(looks=looks, marks=code, fixture=Fixture(label=label, **known), use="lighting")
    return assess(catalogue, case)


@pytest.mark.parametrize("words", READ)
def test_forms_are_read_to_their_end(catalogue, words):
    read = parse_label(f"Electronic ballast 1x26W. {words}. Class P")
    assert [one.text for one in (*read.unread, *read.dangers)] == []
    assert read.fields["ballast_watts"] == (26,)


@pytest.mark.parametrize("words", HELD)
def test_a_form_lets_nothing_else_through(catalogue, words):
    assert said(catalogue, f"Electronic ballast 1x26W. {words}").verdict != "sell"


@pytest.mark.parametrize(
    ("label", "unread"),
    [
        ("HALDVORN electronic ballast CAT. NO. HV-226, 1x26W", ()),
        ("HALDVORN HN26 1x26W", ()),
        ("HALDVORN Typ HV 226, 1x26W", ()),
        ("Haldvorn-Brook H-DIM-226 1x26W", ()),
        ("Choke HALDVORN HN 22C, 1x26W", ()),
        ("Choke HALDVORN H-22, 1x26W", ("HALDVORN", "22")),
        ("NORDHAL type NO 226, 1x26W", ("NORDHAL",)),
        ("Halden Brook ballast MODEL HB-2P26, 1x26W", ()),
        ("HALDVORN 1x26W www.haldvorn.example", ()),
        ("HALDVORN 1x26W. Haldvorn Ltd, made in China", ()),
        ("HALDVORN electronic ballast CAT. NO. XQ-226, 1x26W", ("HALDVORN",)),
        ("1x26W CAT. NO. HV-226 HALDVORN", ("HALDVORN",)),
        ("HALDVORN LED-26 1x26W", ("HALDVORN", "26")),
        ("HALDVORN 1x26W", ("HALDVORN",)),
        ("BUGOVAX BX-26 1x26W", ("BUGOVAX BX-26",)),
    ],
)
def test_a_makers_name_is_explained_where_its_own_number_or_address_bears_it_out(label, unread):
    assert tuple(one.text for one in parse_label(label).unread) == unread


@pytest.mark.parametrize(
    "label", ["HALDVORN HV-2A18 26W", "HALDVORN HV22A 26W", "HALDVORN HV 26W", "HALDVORN HV 18/26W"]
)
def test_a_model_number_takes_no_watts_with_it(label):
    assert 26 in parse_label(label).fields["ballast_watts"]


def test_a_tube_behind_a_count_is_no_count():
    read = parse_label("2xT5 28W, HF 2x36 T8")
    assert (read.fields["ballast_counts"], read.tubes, read.unread) == ((2,), (5, 8), ())


def test_an_order_said_in_two_languages_is_two_orders():
    read = parse_label("Not for 2-pin lamps / Pas pour lampes à 2 broches")
    assert [one.words for one in read.shut_out] == ["Not for 2-pin", "Pas pour lampes à 2 broches"]
    assert read.dangers == ()
    assert parse_label("Ne convient pas aux tubes LED. Não usar lâmpadas LED").dangers == ()


def test_pins_only_are_these_alone():
    assert parse_label("2 broches seulement. La 4 broches grille").pins == (2,)


DRAWN = """
Potencia absorbida 58 W
Potencia de línea: 58 W
Puissance absorbée 58 W
Potenza assorbita 58 W
Perdite 6 W
Potência absorvida 58 W
Opgenomen vermogen 58 W
58 W in .6A
""".strip().splitlines()


@pytest.mark.parametrize("words", DRAWN)
def test_watts_drawn_from_the_supply_are_no_lamps(words):
    assert parse_label(f"1x26W 230V. {words}. Class P").fields["ballast_watts"] == (26,)


@pytest.mark.parametrize(
    ("label", "watts"), [("F17T8 120V .27A 32W", (17,)), ("CFQ13W .25A 26W", (13,)), ("Choke 230V 0,37A 18W", (18,))]
)
def test_watts_behind_amperes_are_drawn_where_lamps_stand_by_their_codes(label, watts):
    assert parse_label(label).fields["ballast_watts"] == watts


def test_figures_under_the_heads_of_columns_are_read(catalogue):
    read = parse_label("LAMP  QTY  INPUT W  BF\nCFQ26W/G24q  1  29  1.0\nCFQ26W/G24q  2  54  .98\nTHD <10%")
    assert (read.unread, read.fields["ballast_watts"], set(read.pairs)) == ((), (26,), {(1, 26), (2, 26)})
    assert parse_label("LAMP QTY BF F32T8 2 .88 59 18").unread[0].text == "59 18"
    assert parse_label("LAMP NO. TEMP AMPS WATTS IN BF F32T8 28W 4 60F/16C .72/.31 86 .77").unread == ()
    assert parse_label("LAMP NO. AMPS BF F32T8 28W 4 .72/.31 .77 26").unread[0].text == "26"


FAMILIES = ["circline", "slimline", "single pin", "VHO", "HO lamps", "U-bent", "T5 linear", "medium bipin", "2D lamp"]


@pytest.mark.parametrize("words", FAMILIES)
def test_words_for_another_family_hold_the_sale_on_label_and_lamp(catalogue, words):
    assert "labelled-family" in {one.rule for one in said(catalogue, f"1x26W {words}").cautions}
    assert said(catalogue, "1x26W", code=f"CFQ26W/G24q/841 {words}").verdict == "ask first"
    assert said(catalogue, "1x26W").verdict == "sell"


@pytest.mark.parametrize(
    ("holder", "code", "label"),
    [
        ("G5", "F54T5/HO/841", "54W T5 HO"),
        ("2G11", "FT36W/2G11/841", "36W long twin tube"),
        ("GX24q-3", "CFTR32W/GX24q/841", "32W triple twin tube or 26W quad tube"),
        ("G10q", "FC8T9/CW", "FC8T9 circline 22W"),
    ],
)
def test_words_for_its_own_family_ask_nothing(catalogue, holder, code, label):
    watts = (float(label.split("W")[0].split()[-1]),)
    ballast = "magnetic" if holder == "G10q" else "electronic"
    answer = said(catalogue, label, code=code, holder=holder, ballast=ballast, ballast_watts=watts)
    assert "labelled-family" not in {one.rule for one in answer.cautions}
    assert answer.verdict == "sell"


@pytest.mark.parametrize(("label", "verdict"), [("FC8T9", "sell"), ("FC12T9", "do not sell")])
def test_a_code_by_inches_says_its_watts(catalogue, label, verdict):
    answer = said(catalogue, label, code="FC8T9/CW", holder="G10q", ballast="magnetic", ballast_watts=())
    assert answer.verdict == verdict
    assert "ballast_watts" not in {one.about for one in answer.asks}


@pytest.mark.parametrize("code", ["FT36W/2G11", "CFT9W/G23"])
def test_a_code_without_a_colour_leaves_the_glass_to_be_looked_at(catalogue, code):
    holder, watts = code.split("/")[1], float(code[3] if "CFT" in code else code[2:4])
    fixture = {"holder": holder, "ballast": "magnetic", "ballast_watts": (watts,)}
    assert "glass" in {one.about for one in said(catalogue, "", code, None, **fixture).doubts}
    assert "glass" not in {one.about for one in said(catalogue, "", f"{code}/840", None, **fixture).doubts}
    assert "glass" not in {one.about for one in said(catalogue, "", code, "white", **fixture).doubts}


@pytest.mark.parametrize("marks", ["FR71T12", "F72T12/BL/HO", "tanning"])
def test_what_the_fixture_asks_for_waits_while_the_lamp_in_hand_is_another(catalogue, marks):
    fixture = Fixture(holder="G13", ballast="magnetic", ballast_watts=(40,))
    nothing = assess(catalogue, Case(fixture=fixture, use="lighting"))
    assert "sell" in {one.verdict for one in nothing.replacements}
    answer = assess(catalogue, Case(marks=marks, fixture=fixture, use="lighting"))
    assert "sell" not in {one.verdict for one in answer.replacements if one.lamp}


def test_a_label_for_tanning_lamps_by_their_code_speaks_of_ultraviolet(catalogue):
    fixture = Fixture(holder="G13", ballast="magnetic", ballast_watts=(40,), label="F71T12, 40W")
    rules = {one.rule for one in assess(catalogue, Case(marks="F40T12/CW", fixture=fixture, use="lighting")).cautions}
    assert "label-uv" in rules


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("f32t8" + "/germicidalline" * 60, ("f32t8",)),
        ("f32t8" + "germicidalline" * 60, ()),
        ("f32t8x2", ("f32t8",)),
        ("f32t8/is.", ("f32t8/is",)),
        ("f32t8-25w/rs", ("f32t8-25w/rs",)),
    ],
)
def test_a_tubes_code_is_read_in_one_pass(text, codes):
    """A tail of many letters could once be cut in so many ways that one label took minutes."""
    assert parse_label(text).codes == codes
