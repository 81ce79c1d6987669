"""Pure sums of the soap bench: no Django, no database, no clock, no files.

Grams, degrees Celsius, minutes and mass fractions inside; the maker's own units belong to the edge of the app.
"""
