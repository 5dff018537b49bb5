"""All that is said of what cannot be read, or can be read in two ways."""
