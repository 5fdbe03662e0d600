"""The printed sheets of a lesson."""
