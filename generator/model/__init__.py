"""Frozen records: what was read, what was planned, what was found. No logic beyond plain arithmetic."""
