"""What a cake file says, read and checked. Knows no geometry."""
