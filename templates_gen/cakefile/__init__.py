"""What the decorator asked for, read from a cake file and checked. Knows no geometry."""
