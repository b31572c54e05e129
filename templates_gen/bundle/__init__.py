"""The program as a folder that needs no Python: a double-click opens the page.

``python -m templates_gen.bundle --out DIR`` makes it, and a ZIP of it, for the system it runs on.
"""
