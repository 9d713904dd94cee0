"""Spoken numbers and phrases."""
