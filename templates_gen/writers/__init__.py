"""Bytes. A writer only translates; it decides no layout and knows no cake."""
