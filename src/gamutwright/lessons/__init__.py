"""Lessons: what is told about a scale, in a script that the teacher owns and every claim of which is checked."""
