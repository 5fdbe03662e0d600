"""Music made from a scale: tunes, vamps and exercises as records of bars, beats, degrees and parts."""
