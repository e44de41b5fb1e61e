"""What the customer says to a quote: on the page, or on the phone."""
