"""Photos of a submission: taken in, made harmless, kept, shown to who may see them."""
