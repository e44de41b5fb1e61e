"""Who is on the phone: an earlier customer and her boat, from a few letters or digits."""
