"""Who has a call-back, and until when: a lease that returns by itself."""
