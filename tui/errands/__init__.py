"""What is done at the window: each errand asks with a form, files the answer, and says what it did."""
