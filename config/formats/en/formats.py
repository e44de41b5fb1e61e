"""English as it is read on both sides of the Atlantic: the month as a word."""

DATE_FORMAT = "j F Y"
DATETIME_FORMAT = "j F Y, H:i"
