"""The command, its words and options."""
