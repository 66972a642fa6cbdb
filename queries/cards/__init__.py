"""Cards with the week's own words, for the card pockets: set in type, drawn as pieces of a print or as a PDF.

`values` and `making` are for everyone; `drawing` gives pixels (in a worker), `home` a PDF for the printer at home.
"""
