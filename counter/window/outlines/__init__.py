"""Outlines, one large drawing beside another, and what the catalogue holds of it. May import window.parts."""
