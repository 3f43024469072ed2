"""The command line: what each command answers, as plain text and as JSON."""
