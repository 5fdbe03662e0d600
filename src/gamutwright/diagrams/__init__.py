"""Pictures of a scale, one kind a file: a scale, its places and their labels in, a figure out."""
