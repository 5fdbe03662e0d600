"""The studio: the whole job in a browser, on the teacher's own machine.

`launch` binds a port of this machine alone, `guard` keeps every other page and program out, `static` serves the kit of
style and modules, `errors` turns what goes wrong into words, and `app` puts the screens together. Nothing is fetched
from a network and nothing is told to anybody.
"""
