"""What a job's folder shows: its sections, each a list of lines with the words for them."""
