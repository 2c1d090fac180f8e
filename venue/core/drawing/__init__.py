"""Drawings as lists of plain shapes, and their writers."""
