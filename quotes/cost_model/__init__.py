"""What a mismatch and a call cost us, and the targets: sets that are only added."""
