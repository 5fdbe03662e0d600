"""A lesson as notes: MusicXML and MIDI."""
