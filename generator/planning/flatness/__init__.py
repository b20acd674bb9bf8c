"""Stud faces brought to one plane with the least shims and planing."""
