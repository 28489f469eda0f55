"""Catalogue geometry to shapes in millimetres: pure, no painting.

May import counter.catalogue's models for their types only.
"""
