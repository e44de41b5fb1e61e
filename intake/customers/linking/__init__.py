"""Whose request it is: looked up as it comes, made where there is no record yet."""
