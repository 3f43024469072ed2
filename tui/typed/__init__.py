"""What somebody types, read into figures, days, rooms and finds; a slip becomes a sentence."""
