"""Definitions of music theory as pure functions of a `Scale`; the standard library alone."""
