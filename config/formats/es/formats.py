"""Spanish dates: 25 de noviembre de 2026."""

DATE_FORMAT = r"j \d\e F \d\e Y"
DATETIME_FORMAT = r"j \d\e F \d\e Y, H:i"
