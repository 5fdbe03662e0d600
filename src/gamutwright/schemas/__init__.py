"""Published JSON schemas, shipped beside the code that writes what they describe."""
