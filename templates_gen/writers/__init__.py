"""Stage 5: bytes. A writer only translates; it decides no layout and knows no cake."""
