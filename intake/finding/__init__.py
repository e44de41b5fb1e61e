"""Finding things again: by any word or number, by a name that was not quite heard."""
