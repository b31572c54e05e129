"""The program as a folder that needs no Python."""
