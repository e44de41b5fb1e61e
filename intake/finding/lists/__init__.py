"""All requests, sorted, filtered, searched, page by page."""
