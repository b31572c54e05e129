"""A handout: two pages that a student can follow."""
