"""The shop in the window: the shelf pane, importing a list, parked cases, and the worker that asks the store."""
