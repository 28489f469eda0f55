"""The makers of cards, and the list of all that they ask about. May import counter.desk and the core behind it."""
