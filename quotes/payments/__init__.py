"""Deposits and payments, written down by hand."""
