"""Framing of benches, corner seats and decks beside a tub: what stands under the front, and what the seat lies on."""
