"""The tag on a shaft, and the page behind it."""
