"""Stage 2: what the decorator asked for, read from a cake file and checked. Knows no geometry."""
