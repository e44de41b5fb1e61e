"""From the desk's records to facts."""
