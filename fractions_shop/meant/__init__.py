"""The sizes that were meant, from what an instrument says now."""
