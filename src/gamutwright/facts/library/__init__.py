"""The built-in pack of facts: one module for each, named by its id."""
