"""What is told, before any writer: figures, tables, shapes."""
