"""Files, whatever is in them: written whole or not at all, and never read without a bound."""
