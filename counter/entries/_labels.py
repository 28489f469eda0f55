"""What the fields of a form are called, and their units, which stand at the end of their names."""

from __future__ import annotations

from counter.language import marked, tr

UNITS = {"_mm": "mm", "_w": "W", "_a": "A", "_v": "V", "_c": "°C", "watts": "W"}
# Where the name alone would not be understood, or is not what the counter says.
LABELS = {
    "designation": marked("Designation"),
    "sheet": marked("Sheet of the standard"),
    "pins": marked("Pins"),
    "arrangement": marked("How the pins stand"),
    "block": marked("Block between the pins"),
    "pin_spacing_mm": marked("Pin spacing"),
    "spacing_means": marked("Measured between"),
    "family_notches": marked("Keys met in the family"),
    "starter": marked("Starter"),
    "supply": marked("Fed by"),
    "mount": marked("How it is put in"),
    "hold": marked("How to hold it"),
    "tell": marked("How to know it"),
    "seldom": marked("Seldom met"),
    "face": marked("Face, pins toward you"),
    "at": marked("Places"),
    "x_mm": marked("Right of the middle"),
    "y_mm": marked("Above the middle"),
    "outline": marked("Outline"),
    "pin_diameter_mm": marked("Pin thickness"),
    "centre": marked("Block or post"),
    "notches": marked("Keys"),
    "width_mm": marked("Width"),
    "height_mm": marked("Height"),
    "corner_mm": marked("Rounding"),
    "offset_y_mm": marked("Moved up by"),
    "offset_mm": marked("Right of the middle"),
    "depth_mm": marked("Depth"),
    "size": marked("Size"),
    "shape": marked("Shape"),
    "what": marked("What"),
    "base": marked("Base"),
    "watts": marked("Watts"),
    "kind": marked("Kind"),
    "band": marked("Band"),
    "glass": marked("Glass"),
    "tube_mm": marked("Tube width"),
    "length_mm": marked("Length"),
    "length_also_mm": marked("Length in the other market"),
    "mains": marked("On a magnetic ballast"),
    "hf": marked("On an electronic ballast"),
    "power_w": marked("Power"),
    "current_a": marked("Current"),
    "voltage_v": marked("Voltage"),
    "ballasts": marked("Ballasts made for it"),
    "ballasts_from": marked("Known from"),
    "magnetic_if_listed": marked("Magnetic where listed"),
    "starts": marked("Ways of starting"),
    "starts_from": marked("Known from"),
    "starts_above_c": marked("Starts above"),
    "most_light_at_c": marked("Most light at"),
    "dims": marked("Dims"),
    "stands_in_for": marked("Stands in for"),
    "stands_in_from": marked("Known from"),
    "uvc_w": marked("UV-C output"),
    "uva_w": marked("UV-A output"),
    "uvb_w": marked("UV-B output"),
    "arc_mm": marked("Arc length"),
    "purposes": marked("Made for"),
    "purposes_from": marked("Known from"),
    "met": marked("How often met"),
    "inches": marked("Nominal inches"),
    "codes": marked("Codes of standards"),
    "note": marked("Note"),
    "value": marked("Value"),
    "plus_minus": marked("Spread ±"),
    "source": marked("Source"),
    "confidence": marked("How sure"),
    "rule": marked("Caution"),
    "language": marked("Language"),
    "says": marked("What is wrong"),
    "why": marked("Why"),
    "do": marked("What to do"),
    "word": marked("Harmless word"),
    "id": marked("Short name"),
    "name": marked("Name"),
    "place": marked("Place"),
    "classes": marked("Classes of lamps"),
    "ends": marked("Day"),
    "law": marked("Law"),
    "last_day": marked("That day is the last with it"),
    "read": marked("Text last read on"),
    "lengths_mm": marked("Only tubes of these lengths"),
}


def label_of(name: str) -> str:
    """Return what a field is called in the language now spoken."""
    return tr(LABELS[name]) if name in LABELS else name.replace("_", " ")


def unit_of(name: str) -> str:
    """Return the unit of a field, nothing where it has none."""
    return next((unit for ending, unit in UNITS.items() if name.endswith(ending)), "")
