"""The page of one request: what to do next, what it was judged, what happened to it."""
