"""Did it fit? What customers tell once the shaft is in; nobody's silence counts as a yes."""
