"""Pictures of sizes and marks, as plain shapes or characters."""
