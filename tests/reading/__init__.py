"""Tests of reading: files, lines, mistakes."""
