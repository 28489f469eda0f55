"""Every sentence with something in it that reading a code says, in the program's own words.

Grammars fill these in and keep what comes of it, often for as long as a catalogue lives; `_in_words` finds the
sentence again and says it in another language. `n` and `mm` are figures, `what` is words; all else is quoted. What
the tables of code systems say of a slot is found here too, whatever name its figure has there.
"""

from __future__ import annotations

from counter.language import marked

# What one part of a code means.
WATTS = marked("{n} watts")
PIN = marked("{n} pin")
PINS = marked("{n} pins")
LEGS = marked("{n} legs")
FLUORESCENT = marked("fluorescent: {what}")
RARE_EARTH = marked("rare-earth phosphor")
RENDERING = marked("colour rendering {n} or better (Ra)")
COLOUR = marked("{n} K, {what}")
COLOUR_NUMBER = marked("colour number {n}: {what}")
COLOUR_ABOUT = marked("{what}, about {n} K")
ABOUT = marked("about {n}\N{THIN SPACE}K")
TUBE_MM = marked("tube {n} mm thick")
TUBE = marked("tube {n}/8 inch thick, {mm} mm")
NOMINAL_LENGTH = marked("{n} mm long (nominal)")
LENGTH = marked("{n} mm long")
INCHES = marked("{n} inches long, sockets included")
RING_INCHES = marked("{n} inches across the ring")
WATTS_OR_INCHES = marked("{n}: watts with two pins an end, inches with one pin or high output")
AS_WATTS = marked("{n}: taken as watts")
WARM, NEUTRAL, COLD = marked("warm light"), marked("neutral light"), marked("cold light")
OTHER_FIGURES = marked("volts, amperes, hertz or lumens: does not tell the base")
CANNOT_BE_READ = marked("cannot be read")
ONE_ARTICLE = marked("GTIN-{n}: the number of one article of one maker")
CHECK_DIGIT = marked("check digit: right")

# Bases, letter by letter.
BASE = marked("base {code}: {what}")
BASE_ALONE = marked("base {code}")
MODIFIED = marked("{typed}: {what}")
GROUPS = marked("{n} like groups side by side")
MEASURED = marked("{n} mm: {what}")
CIRCLE, DISTANCE = marked("the circle through the pins"), marked("distance of two pins")
WEDGE = marked("{n} mm: width of the wedge")
KEY = marked("key {n}: {what}")
SUFFIX = marked("suffix {n}: {what}")
WHICH_HOLDERS = marked("which holders it goes into")
ALSO_DECIDES = marked("one more thing that decides which holders it fits")
ANGLES = marked("where the pins of the shell sit")
CAP_LENGTH = marked("{n} mm: length of the cap, pins not counted")
SKIRT = marked("{n} mm: outer diameter of the skirt")

# What was taken for what.
TAKEN = marked("{typed} was taken as {what}.")
TAKEN_AS_WATTS = marked("{n} was taken as watts.")
TRADE_WATTS = marked("{code} was taken as {n} W, as the trade uses it.")
TRADE_TUBE = marked("{code} was taken as T{n}, as the trade uses it.")
WORN_SLASH = marked("{typed} was taken as a worn /.")
PUT_IN = marked("{typed} was put in.")
LEFT_OUT = marked("{typed} was left out.")
ONLY_FIGURE = marked("The unreadable figure can only be {n}.")

# What does not fit, and what to do.
LOOK_INSTEAD = marked("Count the legs and the pins, and look at the notch.")
NO_LETTER = marked("{code} lacks its last letter: d for two pins, q for four.")
WITHOUT_X = marked("No such lamp stands on {code}; it does on {other}, which older codes print without its X.")
NO_SUCH_LAMP = marked("Understood, but no lamp like this is in the catalogue. {what}")
ONLY_AS = marked("{n} W on {code} is known as {lamps} only, not as the other marks say. Read all again.")
APART = marked("{n} W and {code} do not belong together: {code} has {watts} W. Read watts and base again.")
APART_ELSEWHERE = marked(
    "{n} W and {code} do not belong together: {code} has {watts} W, and {n} W is on {bases}. "
    "Read watts and base again."
)
ANOTHER_SHAPE = marked("another shape")
UNKNOWN_KEY = marked("{code} is not in the catalogue; known here: {bases}. Look at the key again.")
UNKNOWN_BASE = marked("{code} is not in the catalogue; only what its letters mean can be said.")
BAD_CHECK = marked("{n} figures like a barcode, but the last should be {digit}: scan it again.")
TOO_LONG = marked("{n} characters: only the first {most} were read. Type the one line that stands on the lamp.")
NOTHING = marked("Nothing understood in {text}. {what}")
NOT_UNDERSTOOD = marked("Not understood: {text}. The rest was read.")
PARTLY = marked("Understood: {read}. Not understood: {text}. {what}")
EITHER_KIND = marked("This does not say whether it is a lighting or a germicidal lamp (UV-C): look at the glass.")
SPEAKS_OF_UV = marked("“{text}” speaks of ultraviolet: ask what it is for before anything is sold.")
TOO_LITTLE = marked("Several codes fit: choose one, or read one more character.")
EITHER = marked("Either {code} or {others}: look at the doubtful characters again.")
NEAREST = marked("The nearest that is there: {code}. {what}")
TAKEN_AS = marked("Taken as {code}: {what}")
OTHER_MEANING = marked("{letters} has another meaning in this shop than the rest of the code. Which is right?")
MAKERS_OWN = marked("The maker's own, not known in this shop: {letters}.")
MAKERS_OWN_LOOK = marked("The maker's own, not known in this shop: {letters}. {what}")
DOUBTFUL_NUMBER = marked("{n} {unit} or {others} {unit}: look at the number again.")
CLASHES = {
    "base": marked("Two bases in one text: {one} and {other}. Which of them stands on the lamp?"),
    "number": marked("Two numbers in one text: {one} and {other}. Which of them stands on the lamp?"),
    "tube_mm": marked("Two tube diameters in one text: {one} mm and {other} mm. Measure the tube."),
    "watts": marked("Two wattages in one text: {one} W and {other} W. Which of them stands on the lamp?"),
    "pins": marked("Two numbers of pins in one text: {one} and {other}. Count them."),
    "kind": marked("Two kinds of lamp in one text: {one} and {other}. Ask before anything is sold."),
    "cct_k": marked("Two colours in one text: {one} K and {other} K. The first was taken."),
}
MAY_BE_UVC = marked(
    "It may also be germicidal (UV-C): {code}, {share} probable. Look at the glass before anything is sold."
)
MAY_BE_UVA = marked(
    "It may also be a blacklight (UV-A): {code}, {share} probable. Look at the glass before anything is sold."
)
MAY_BE_UVB = marked(
    "It may also be a sun lamp (UV-B): {code}, {share} probable. Ask what it was for before anything is sold."
)
SEVERAL = marked("{first}; {rest}")
