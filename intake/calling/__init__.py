"""Call-backs: who must be called, who has it, what was asked and what came of it."""
