"""The makers of cards, and the deck of them all. May import counter.desk and the core behind it."""
