"""How the tables of a store came to be: one file a step, sorted by name. Imported by Alembic alone."""
