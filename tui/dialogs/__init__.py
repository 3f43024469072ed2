"""One question each, answered by one typed value."""
