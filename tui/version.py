"""This release's number, kept apart so that asking for it imports nothing else."""

VERSION = "0.1.0"
