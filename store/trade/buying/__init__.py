"""What a whole job needs bought: one line for each thing, and what somebody has set by hand."""
