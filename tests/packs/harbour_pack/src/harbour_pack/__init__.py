"""An example pack: one module for each fact, offered by an entry point of the group `gamutwright.facts`."""
