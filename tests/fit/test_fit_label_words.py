"""A good label with one more wording on it: what speaks against the lamp holds the sale, what says nothing does not.

Wordings of our own, as people write them on stickers and labels: common practice, no source.
"""

import pytest

from counter.desk import Case, Fixture, assess
from counter.fit import parse_label

LABEL = "Electronic ballast 120-277V 50/60Hz 1x26W"
AGAINST = """
air unit, filter
do not stare at it
mineral display
safety cabinet
flammable vapor area, close door before switching
caution: flammable vapors
spray area, flammable
grain dust area
vapores inflamables
Lager für Farben
caution: harmful light
harmful light, keep door shut
high voltage grid, electric
barber tool cabinet
coil lamp, duct unit
under sink unit
stamp viewer
facial bronzer, wear goggles
Ontsmettingslamp voor vijverwater
lámpara del clarificador del estanque
straight 120 on tombstones
line and neutral
fase y neutro
ballastless, retro kit
ballast too hot
ballast hot, tar
shock from fixture
fixture wet after flood
polychlorinated biphenyls, oily drip
mains 120V at both sockets
mains (230 V) at holders
120V both sockets
line voltage 120-277V at socket
portalámparas a 127V
voltaje de línea en bases
hot and neutral at same end
Fassung mit Netzspannung
tensione di rete ai portalampade
upper air unit
upper-room fixture
clean bench
laminar flow hood
coil cleaner, eye hazard
barber cabinet
atrapamoscas
matamosquitos
désinsectiseur
zanzariera elettrica
lampa bakteriobójcza
debatterizzatore
Teichklärer
microbe killer
EPROM eraser
abbronzante
Gesichtsbräuner
Lichthärtung
insoladora
money detector
lámpara de Wood
HazLoc
paint booth
contains PCBs
contiene PCB
Askarel
emergenza
gear disconnected for good
choke disconnected 2019
balasto desconectado de la red
ballast débranché
installed after removing gear
after removing ballast
gear switched off for good
designed for shunted holders
supplied by inverter
made for dummy tubes
power LED lamp
red LED tubes
unit isolated, fed by 12V
manufactured by removing the gear
class I division 2
zone 22, dust
II 2 G Ex de IIC T4
atmósfera explosiva
do not use LED or compact lamps
not for 18W or triple lamps
ballast gutted for retrofit
rewired for tube LED, no gear inside
sockets carry mains
mains straight on the pins
supply wired directly to lampholder
shunted direct-wire conversion
use LED replacement lamps exclusively
do not install fluorescent
fluorescent tubes no longer usable
not for use with discharge lamps
CFL forbidden
only for halogen capsules
metal halide 39W only
high pressure sodium
use only 2 pin lamps
two-pin types only
for 4-foot T8 tubes only
for 13 watt lamp only
do not exceed 18 W
maximum lamp 18 W
13W max
this ballast was replaced with a 32W unit
sterilizer lamp only
replace with UVC lamp only
germ killing lamp
air disinfection unit
water treatment lamp
ultraviolet radiation inside, shield eyes
insect trap lamp only
actinic BL lamp only
tanning
psoriasis treatment
reptile UVB
black light
nail dryer
phase-cut dimmer
TRIAC dimming
emergency inverter connected
battery backup unit
ballast burned
ballast smokes
water damage
defective, do not use
condemned by electrician
out of order
burnt smell
humming and hot
melted socket
scorched holder
non conforme - ne pas utiliser
balasto quemado
solo lámparas LED
sin balasto, línea directa
balasto retirado
conexión directa a red
prohibido fluorescente
lámpara germicida
ultravioleta
Vorschaltgerät entfernt
nur LED
Netzspannung an der Fassung
defekt
ballast retiré
tension secteur sur douille
uniquement LED
UVC
UV-B 311nm
365 nm
254
405nm
far-UVC 222
amalgam UV
induction lamp
OLED
incandescent only
E26 adapter inside
DC 12V
24VDC supply
12 V battery ballast
preheat 2-pin magnetic choke
choke 26W
reactor ballast
autotransformer
low power factor choke with starter
cold cathode
neon transformer
instant start only
series pair 2x13W
2x13W
wired in series
programmed for 42W
set to 42W
42W dip switch
dip switch set 18W
outdoor only
explosion proof
hazardous location
grow light
plant lamp
aquarium
lampholders are live at 230V
L and N on opposite ends
tombstones not shunted for LED
do not put a normal tube back
no CFL
LED or nothing
fits LED PL lamp only
works with integrated LED lamps
uses lamp with built-in driver
convert kit fitted 2021
modified by maintenance: ballast out
gear bypass done
igniter fitted
ignitor 4.5kV
mercury vapour 80W
sodium lamp
halogen 20W G4
12V halogen
disinfecting
disinfection lamp
sanitizing
sanitiser
sterilising
hygiene lamp UV
kill bacteria
legionella
pond UV
fish tank
koi filter
aquarium light
terrarium
bird lamp
grow lamp
hydroponics
horticulture
bug light
fly killer
moth trap
curing oven
resin curing
gel polish
banknote checker
counterfeit detector
mineral lamp
stage blacklight
photo-therapy
dermatology
sun bed
collagen
facial tan
Wood lamp
ozone generator
germ lamp
dead ballast
ballast dead replace
tripped breaker
keeps failing
eats lamps
lamps burn out fast
arcing
sparks
water inside
corroded
rusty
fire damage
burn marks
hot to touch
smells
recalled
do not energize
tagged out
locked out
quemado
dañado
no usar
fuera de servicio
sin reactancia
red directa
solo para LED
bajo tensión en casquillo
luz ultravioleta
desinfección
esterilización
lámpara de acuario
caza insectos
lampe UV
désinfection
hors service
ne pas utiliser
brûlé
seulement LED
sans ballast
alimentation directe
Entkeimung
Desinfektion
Insektenvernichter
Schwarzlicht
ausser Betrieb
nicht verwenden
verbrannt
ohne Vorschaltgerät
direkt am Netz
nur für LED
only 18W
replace with 18W
relamp with 32W
13W PL lamps only
G24q-2 only
G24d-3
for G24d lamps
GX24q-4 42W
2-pin
two pin lamps
use 2 pin lamp
T8 lamps only
36W 2G11 only
long compact only
circular lamp only
dimmer
wall dimmer
dimming by phase
triac
trailing edge
motion sensor dimming
generator supply
inverter 12V
solar battery
DC supply
220VDC
emergency only
non-maintained
maintained emergency
battery
NiCd pack
ballast not supplied
gear stays in the tray, leads capped
lamps must have a stripe
see the new plate for lamps
feed at one side
not in ceiling 26W
2 broches seulement. La 4 broches grille
instrument lamp
edge lamps
module fitted to lamp ends
primary to holders
primario a los portalamparas
alimentation permanente aux douilles
modul anstelle drossel
takes the long type of lamp, because the gear is open
keep the gear open, ends take the line
take the ballast away before you insert lamps
starter is a fuse type, leave in
ballast kept as cover, wires secured to the holders
use with lamps that contain their gear
lamp takes power at this side
lamps contain electronics
lamp shows violet
keep hands away when the lamp shows
lamp cleans air
drying lamp
inspection lamp for notes
match the lamp to the new gear
use lamps as the service sheet says
lamp must take low temperatures
blue lamp
gutted by Norvolt Inc
gear gutted Norvolt Electric Co.
ausgeräumt Norvolt GmbH
suelte la reactancia y lleve la linea a los soportes
la lampara tiene su fuente
lampara para secar tinta
la lampara muestra violeta
placez le fusible dans la prise du starter
la lampe contient son alimentation
la ligne va aux deux bouts
lampe pour nettoyer l'eau
vorschaltgerat bleibt offen, leitung geht zur fassung
lampe zeigt violett
lampe enthalt ihr netzteil
""".strip().splitlines()
SAYS_NOTHING = """
suitable for mounting on normally flammable surfaces
vapor tight, dust tight
flood light
lámpara del pasillo
contains no PCBs
brauner Leiter an L
alimentatore elettronico
reator eletrônico
sockets rated 660W 600V
Class P Type 1 Outdoor
Sound rated A
THD < 10%
Power factor > 0.98
UL Listed Class P
RoHS compliant
Made in Mexico
Assembled in USA
Date code 0719
Rev B
Patent pending
US Pat. 5,925,990
Input current 0.24 A at 120V
Line 120V: 0.25A 277V: 0.11A
Min starting temp -18C / 0F
Max case temp 75C
tc 75 °C
ta -20..50 °C
lambda 0.98
EEI A2
CELMA EEI=A2
CE ENEC 05
Black: line, White: neutral, Yellow-Yellow / Blue-Blue: lamp
Remote mounting max 3 ft
Max lead length 12 ft
Ground ballast to fixture
Case must be grounded
Inherent thermal protection
End-of-life protection
Auto restart after relamping
Inrush current limited
Crest factor 1.6
Ballast factor 1.00
Lamp current 325 mA
Output frequency 42 kHz
CRI 82
For indoor use
Suitable for dry and damp locations
Serial no. 00412345
Part no. 93-10412
Cat. No. XB2-26-MV
Input watts 29
Input power 54 W
Energy efficient
Non PCB
No PCBs
Contains no PCB
5 year warranty
Warranty void if opened
Installed by electrician only
Disconnect power before servicing
Risk of electric shock
Caution: hot surface
Keep out of reach of children
Strip 3/8 in
Wire 18 AWG solid
0.5-1.5 mm2
Use copper wire only
Protected against short circuit
IP20
Torque 0.5 Nm
IEC 61347-2-3
EN 61347-2-3, EN 60929
UL 935
CSA C22.2 No. 74
NOM ANCE
PSE
CCC
Low EMI
Class B EMI
Leistungsfaktor 0,98
hecho en China
factor de potencia 0.98
alto factor de potencia
Fabriqué en France
Hergestellt in Polen
1 lamp: CFQ26W/G24q
Lamps: CFTR26W, CFQ26W
lamp type CFQ26W/G24q
rapid start
programmed start
Electronic Ballast
ELECTRONIC BALLAST FOR COMPACT FLUORESCENT LAMP
Ballast électronique
Balasto electrónico
Elektronisches Vorschaltgerät
Product of China
Printed in Germany
Week 14 2019
Batch A77
QC passed
QC OK 14
Tested OK
Inspected by 7
Operating temperature -20 to 50C
Storage temp -40 to 85 C
Max ambient 50 °C
Max relative humidity 85%
Tcase 70C
t.c. 70
THD<10%
PF>0.99
PF .98
BF 1.0
C.F. < 1.7
EMI/RFI FCC 47CFR Part 18
Class A sound
Sound A
Type HL
Type 1 outdoor class P
UL Class P Type CC
CC rated
Suitable for plenum
Anti-arc
Lamp end-of-life shutdown
EOL shutdown
Type CC rating
Ignition time < 1.5 s
Cathode preheat
Programmed start <1.0 s
Universal voltage
Multi-volt 120-277
Input 120V 0.25A 29W
Input: 277 V, 0.11 A, 29 W
Un 230-240 V
In 0.13 A
fn 50/60 Hz
λ 0.95
cos phi 0.95
Pin 29 W
P = 28 W
Energy class A2 BAT
EEI=A2 BAT
Ta: 50
Uout 250V
U-OUT 300 V
Lead 24 in
Lead length 20 in.
Max. lead length 2 m
Max cable 1.5 m
Cable 0.5-1.5 mm²
Strip length 9 mm
Screw terminals
Push-in terminals
Poke-in connectors
Mounting hole 4.2 mm
Dimensions 103 x 67 x 31 mm
Weight 0.14 kg
Weight 5 oz
Fuse 1 A
Fusing 3A slow
Grounding required
Must be grounded
Earth terminal
Protective earth
Double insulated
SELV
Class I
Class II
IP 44
Indoor use
For dry locations
Damp location
Do not install in wet location
Read instructions before installing
See instruction sheet
Install per NEC
Install per national electrical code
To be installed by a qualified electrician
Turn off power before servicing
Warning: risk of fire or electric shock
Caution high voltage
Recycle
Contains mercury in lamps
Lamps contain mercury
Dispose properly
WEEE
Made under ISO 9001
ISO 14001
5 yr. ltd. warranty
Call for service
www.example.com
Tel. 800 555 0100
Patents pending
Reg. design
Trademark
Copyright
For 1 lamp
1 lamp
One lamp
Single lamp ballast
for one 26W lamp
4-pin
4 pin lamps
4-pin base
Parallel operation
High frequency
f = 45 kHz
Lamp volts 105
Remove lens and wipe with soft cloth
Keep lens out of direct sun
Cover must be closed and latches secured
Norvolt Electric Co.
Norvolt® ballasts
La tapa debe mantenerse cerrada
Le couvercle doit rester fermé
Abdeckung vorsichtig öffnen
Ulamp 105V
Ilamp 0.3A
OCV 550V
Max OCV 600 V
""".strip().splitlines()


def answered(catalogue, label):
    fixture = Fixture(holder="G24q-3", ballast="electronic", ballast_watts=(26,), label=label)
    return assess(catalogue, Case(looks={"glass": "white"}, marks="CFQ26W/G24q/841", fixture=fixture, use="lighting"))


def test_the_label_alone_may_be_sold_on(catalogue):
    assert answered(catalogue, LABEL).verdict == "sell"


@pytest.mark.parametrize("words", AGAINST)
def test_words_against_the_lamp_hold_the_sale_wherever_they_stand(catalogue, words):
    said = {answered(catalogue, f"{LABEL}{between}{words}").verdict for between in (". ", "\n", " - ")}
    assert said <= {"ask first", "do not sell"}


@pytest.mark.parametrize("words", SAYS_NOTHING)
def test_words_that_say_nothing_of_the_lamp_hold_nothing(catalogue, words):
    assert answered(catalogue, f"{LABEL}. {words}").verdict == "sell"


def test_a_label_for_weaker_lamps_says_how_many_watts(catalogue):
    said = answered(catalogue, f"{LABEL}. Max 18 W")
    assert next(one.figure for one in said.cautions if one.rule == "label-at-most") == 18
    assert answered(catalogue, f"{LABEL}. Max 60 W").verdict == "sell"


@pytest.mark.parametrize("label", ["1x26W for 18 watt lamp only", "1x26W 18W only", "26W only 18W"])
def test_only_means_the_lamps_it_stands_beside(catalogue, label):
    assert answered(catalogue, label).verdict != "sell"


@pytest.mark.parametrize("label", ["26W or 18W only", "1x26W, 2x18W only", "18W/26W only", "only 18W or 26W"])
def test_only_means_every_lamp_of_a_list(label):
    assert parse_label(label).fields["ballast_watts"] == (18, 26)


def test_a_dimmer_named_beside_a_ballast_that_does_not_dim_is_one_too_many(catalogue):
    rules = {one.rule for one in answered(catalogue, f"{LABEL}. Wall dimmer").cautions}
    assert "dimmer-on-electronic" in rules
