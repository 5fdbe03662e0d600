"""The page of a lesson."""
