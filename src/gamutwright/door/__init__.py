"""The Python door: what the command line does, as objects that show themselves in a notebook.

Use it through the package: `import gamutwright as gw`, then `gw.scale("G acoustic")`. Whatever `gamutwright.__all__`
does not name is private.
"""
