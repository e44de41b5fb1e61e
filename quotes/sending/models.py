"""Packing lists, tubes and the day a shaft left."""
