"""Who asks us, and their boats: one record each, whichever way they reached us."""
