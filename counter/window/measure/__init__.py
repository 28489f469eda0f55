"""Measuring in the window: the screen's true size, the pin gauge on the glass, a picture with points to drag."""
