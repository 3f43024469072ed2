"""What closed jobs taught: their real cut loss and glue, sorted, and what that says of the next floor."""
