"""Facts: every property of a scale, one file each, with definition, witnesses, sources and worked examples."""
