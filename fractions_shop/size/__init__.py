"""What a size is and how it is written: exact, or by how much not."""
