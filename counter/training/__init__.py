"""Cards made from the catalogue, their schedule, and each trainee's progress.

May import counter.desk and the core behind it, and fsrs.
"""
