"""Tests of views."""
