"""The site of a course, and the page of its state."""
