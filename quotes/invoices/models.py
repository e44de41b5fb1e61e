"""Invoices and credit notes, as papers and as a table."""
