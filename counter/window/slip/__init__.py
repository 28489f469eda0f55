"""The slip on paper, the dialog that writes one, and the log."""
