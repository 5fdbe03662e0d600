"""From what a teacher has, text or a file, to a scale."""
