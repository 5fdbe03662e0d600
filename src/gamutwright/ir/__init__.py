"""What can be drawn and heard, described without saying how: plain frozen records that every renderer reads."""
