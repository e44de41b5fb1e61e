"""The month on one page: made for any month, sent once when a month is over."""
