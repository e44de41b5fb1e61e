"""A virtual season: customers with true boats, played against three desks.

The model shares the standards' tables and the length type with the rest of the project, and no
judging code. Only ``desks.py`` meets the tool, and only by its public door. Everything here is in
inches as float: it is chance, not a length that anybody cuts.
"""
