"""What the printed sheets are set with: typefaces, a template, words and figures."""
