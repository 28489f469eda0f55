"""In your hand: the looks as pictures to press and sizes to type. May import PySide6 and counter.window.parts."""
