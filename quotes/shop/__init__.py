"""What the machinist opens: the shafts to make, and one cut sheet for each."""
