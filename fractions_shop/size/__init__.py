"""What a size is and how it is written: exact, or saying how far off it may be."""
