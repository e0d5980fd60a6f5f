"""Vehicle identification numbers of 17 characters."""
