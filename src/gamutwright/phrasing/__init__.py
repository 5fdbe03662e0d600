"""Words: how facts, numbers and names are said in each language, and how they are read back."""
