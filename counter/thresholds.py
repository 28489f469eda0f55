"""What counts as sure, as likely and as worth asking: one table, since four files once held four of them.

Judgements of this program, no source. Probabilities are posterior shares; bits are expected information.
"""

from __future__ import annotations

SETTLED_AT = 0.95  # below this the clerk has not seen enough for a sale, whatever the fixture says
TOLD_AT = 0.6  # and so likely it must be by what was seen and read alone, however often each lamp is met
NAMED_AT = 0.5  # a lamp type more likely than all others together is named and judged
UV_DOUBT = 0.01  # a UV candidate this likely keeps the sale open until somebody has looked
LEADING = 0.05  # a candidate this likely leads; so do germicidal lamps that reach it only together
COLOUR_AT = 0.8  # below this share of the readings a colour is a guess among others
ENOUGH_BITS = 0.05  # a look worth less than this is not worth asking for
LEAST_OF_BEST = 3  # the first look asked for tells at least a third of what the best would
TIED_AT = 0.45  # of the first share: from here two families or bases are named together
MOST_TIED = 2  # names at a glance; more are counted
SOLD_AS_ANOTHER = 0.05  # how well a code sold here before goes with another lamp, against the one it was sold as
OTHER_HOLDER = 0.2  # how well a lamp goes with having burned in a holder marked for another base: marks are misread
