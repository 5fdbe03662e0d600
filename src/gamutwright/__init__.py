"""Gamutwright: a workshop for people who teach scales.

One scale goes in; a complete, checked, narrated lesson comes out. Import what you need from the floor it lives on:
`gamutwright.theory` (definitions), `gamutwright.inputs` (text and files to a scale), `gamutwright.facts` (every
property with its definition, witnesses and sources).
"""

__all__ = ["__version__"]

__version__ = "0.1.0"
