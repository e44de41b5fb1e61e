"""The home of spreadsheets: CSV and XLSX in, with every fault named, and out."""
