"""Texts with what they mean, for every reader of them: the server's and the browser's."""
