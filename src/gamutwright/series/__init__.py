"""A course: many lessons with one plan, one style and one build."""
