"""The cake as it looks: from the front and from above."""
