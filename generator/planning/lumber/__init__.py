"""Lumber: every added piece with its length, cut from the lengths in which it is sold."""
