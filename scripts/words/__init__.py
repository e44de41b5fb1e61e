"""The words of the site in another language: found in the code, kept in a catalogue, compiled."""
