"""Making a shaft anew."""
