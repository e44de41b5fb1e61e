"""One part on a page of its own: changed, added, taken out."""
